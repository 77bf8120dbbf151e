// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>Mains interference by its spectrum. Fundamental and harmonics as stated; aliases by textbook folding.</summary>
public sealed class MainsTests
{
    [Test]
    public void MainsUvPp_BySpectrum_IsTheFundamentalPeakToPeak([Values(20.0, 200.0)] double microvolt)
    {
        double[] x = Ecg(1000, 100, microvolt);
        Assert.That(2e3 * Measure.Line(x, 50.03, 1000).Magnitude, Is.EqualTo(microvolt).Within(0.01).Percent, "fundamental, peak to peak");
        Assert.That(2e3 * Measure.Line(x, 100.06, 1000).Magnitude, Is.EqualTo(0.1 * microvolt).Within(0.1).Percent, "second harmonic, 10 %");
        Assert.That(2e3 * Measure.Line(x, 150.09, 1000).Magnitude, Is.EqualTo(0.2 * microvolt).Within(0.1).Percent, "third harmonic, 20 %");

        // Sum of three sines: mean square is half the sum of the squared amplitudes.
        Assert.That(1e3 * Measure.Rms(x), Is.EqualTo(0.5 * microvolt * Math.Sqrt(0.5 * 1.05)).Within(0.01).Percent, "nothing else");
    }

    [Test]
    public void MainsFrequency_OfTheDefault_Is50Point03Hz() =>
        Assert.That(Measure.PeakHz(Ecg(1000, 100, 200), 1000), Is.EqualTo(50.03).Within(1e-9));

    // At 250 Hz the third harmonic of 50.03 Hz, 150.09 Hz, folds to 99.91 Hz.
    [Test]
    public void MainsThirdHarmonic_AboveHalfTheRate_Folds() =>
        Assert.That(2e3 * Measure.Line(Ecg(250, 100, 200), 99.91, 250).Magnitude, Is.EqualTo(40).Within(0.1).Percent);

    [Test]
    public void MainsWanderHz_OverSixHours_IsTheSpreadOfTheFrequency()
    {
        const int Rate = 250;
        double[] x = Recording.Of(
            Settings.Silent().Set(EcgAmplifierKeys.RateHz, Rate).Set(EcgAmplifierKeys.MainsUvPp, 200).Set(MainsKeys.WanderHz, 0.02), 21600)
            .Physical(ChannelName.Ecg);

        // Frequency from the turn of phase between windows of 2 s, short against the fastest wander (30 s).
        const int Window = 2 * Rate;
        double[] phase = [.. Enumerable.Range(0, x.Length / Window).Select(w => LinePhase(x, w * Window, Window, Rate))];
        double[] hz = [.. phase.Skip(1).Zip(phase, (b, a) => Math.IEEERemainder(b - a, 2 * Math.PI) / (2 * Math.PI * 2))];

        // Eight sines of equal size with periods of 30 to 590 s: over 36 periods of the slowest, the mean and the power are within some per cent.
        Assert.That(hz.Average(), Is.EqualTo(0).Within(0.001));
        Assert.That(Measure.Rms(hz), Is.EqualTo(0.02).Within(8).Percent);
    }

    private static double[] Ecg(int rate, double seconds, double microvolt) => Recording.Of(
        Settings.Silent().Set(EcgAmplifierKeys.RateHz, rate).Set(EcgAmplifierKeys.MainsUvPp, microvolt), seconds).Physical(ChannelName.Ecg);

    private static double LinePhase(double[] x, int first, int count, double rate)
    {
        Complex sum = 0;
        for (int i = first; i < first + count; i++)
        {
            sum += x[i] * Complex.FromPolarCoordinates(1, -2 * Math.PI * 50.03 * i / rate);
        }

        return sum.Phase;
    }
}
