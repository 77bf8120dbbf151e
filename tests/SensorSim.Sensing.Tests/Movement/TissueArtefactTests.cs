// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Body.Movement;
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Movement;

/// <summary>Movement artefact in the absorbance, as the logarithm of light without over light with it.</summary>
public sealed class TissueArtefactTests
{
    private const double Cadence = 1.9;
    private const double Percent = 4;

    // Pulse height of a perfusion index p: ln((1 + p/2)/(1 − p/2)).
    private static readonly double s_height = Math.Log(1.02 / 0.98);

    [Test]
    public void Rms_OverThePulse_IsTheKnob([Values(0.3, 1, 10)] double ratio, [Values(0.0, 0.1)] double spreadHz)
    {
        double[] artefact = Artefact(Values().Set(MovementKeys.CadenceSpreadHz, spreadHz), ratio, ChannelName.Infrared);
        double actual = Measure.Rms(artefact) / (s_height / (2 * Math.Sqrt(2)));

        // A sum of sines over 300 s, some 280 periods of the slowest: the power of what is cut at the ends is below 1/280 of it.
        Assert.That(actual, Is.EqualTo(ratio).Within(0.5).Percent);
    }

    // Motion moves tissue, not blood of one colour: both wavelengths see the same change whatever the ratio of ratios.
    [Test]
    public void Absorbance_OfRedAndInfrared_IsTheSame([Values(0.3, 2)] double ratioOfRatios)
    {
        KeyValues values = Values().Set(PulseKeys.RatioOfRatios, ratioOfRatios).Set(OpticsKeys.SlotSpacingUs, 10).Set(OpticsKeys.IntegrationUs, 10);
        double[] red = Artefact(values, 1, ChannelName.Red);
        double[] infrared = Artefact(values, 1, ChannelName.Infrared);

        // Ten microseconds apart: at most 2π 6 Hz × 10 µs = 0.04 % of the amplitude.
        double peak = infrared.Max(Math.Abs);
        Assert.That(Measure.Less(red, infrared).Max(Math.Abs), Is.LessThan(1e-3 * peak));
    }

    [Test]
    public void Spectrum_WhileWalking_HasOnlyHalfCadenceCadenceAndItsHarmonics()
    {
        double[] artefact = Artefact(Values(), 1, ChannelName.Infrared);
        double power = new[] { 0.5, 1, 2, 3 }.Sum(k => 0.5 * Math.Pow(Measure.Line(artefact, k * Cadence, 100).Magnitude, 2));
        Assert.That(power, Is.EqualTo(artefact.Average(v => v * v)).Within(0.2).Percent);
        Assert.That(Measure.PeakHz(artefact, 100), Is.EqualTo(Cadence).Within(0.002));
        Assert.That(Measure.Line(artefact, Cadence / 2, 100).Magnitude, Is.GreaterThan(0.2 * Measure.Line(artefact, Cadence, 100).Magnitude));
    }

    // From acceleration (0.6 forward + upward) to absorbance: one gain times the low-pass 1/(1 + jf/2 Hz) (textbook), phase included.
    [Test]
    public void Response_FromTheAccelerometer_IsAFirstOrderLowPass()
    {
        KeyValues values = Values().Set(Sensing.Movement.AccelerometerKeys.RateHz, 100);
        Recording recording = Recording.Of(values, 300);
        double[] x = recording.Physical(ChannelName.AccelX);
        double[] z = Measure.WithoutMean(recording.Physical(ChannelName.AccelZ));
        double[] artefact = Artefact(values, 1, ChannelName.Red);
        Complex Gain(double hz)
        {
            Complex drive = (0.6 * Measure.Line(x, hz, 100)) + Measure.Line(z, hz, 100);
            return Measure.Line(artefact, hz, 100) / drive * new Complex(1, hz / 2);
        }

        Complex reference = Gain(Cadence);
        Assert.That(reference.Phase, Is.EqualTo(0).Within(1e-3));
        foreach (double k in new[] { 0.5, 2, 3 })
        {
            Assert.That((Gain(k * Cadence) / reference).Real, Is.EqualTo(1).Within(2e-3), $"{k} times the cadence");
            Assert.That((Gain(k * Cadence) / reference).Imaginary, Is.EqualTo(0).Within(2e-3), $"{k} times the cadence");
        }
    }

    private static KeyValues Values() => Settings.Steady()
        .Set(MovementKeys.Activity, "walking").Set(MovementKeys.CadenceHz, Cadence).Set(PulseKeys.PerfusionIndexPercent, Percent);

    private static double[] Artefact(KeyValues values, double ratio, ChannelName name)
    {
        double[] without = Recording.Of(values, 300).Physical(name);
        double[] with = Recording.Of(values.Copy().Set(OpticsKeys.MovementArtefactRatio, ratio), 300).Physical(name);
        return [.. without.Zip(with, (a, b) => Math.Log(a / b))];
    }
}
