// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>1/f noise of the amplifier: its closed-form power, and the spectrum that gives it its name.</summary>
public sealed class FlickerNoiseTests
{
    private const int Rate = 50;
    private const double Seconds = 21600;
    private const double Length = (1 << 20) / (double)Rate;

    private static readonly double[] s_noise = EcgTap.Of(
        Settings.Silent().Set(EcgAmplifierKeys.RateHz, Rate).Set(OpticsKeys.RateHz, 20).Set(AccelerometerKeys.RateHz, 10)
            .Set(EcgAmplifierKeys.FlickerNoiseUvRms, 40),
        Seconds).Millivolts;

    // 2^20 samples, 5.8 hours: a transform of other lengths takes long.
    private static readonly double[] s_power = Measure.Spectrum(s_noise[..(1 << 20)]);

    // One-sided density 1/f above 0.05 Hz, flat below: variance of the mean square is (1/T) ∫S² / (∫S)² = (1/T)(20 + 20)/(1 + ln(25/0.05))²
    // of its square (Bendat & Piersol, textbook).
    [Test]
    public void FlickerNoiseUvRms_OverSixHours_IsAsStated()
    {
        double error = Math.Sqrt(40 / Math.Pow(1 + Math.Log(25 / 0.05), 2) / Seconds);
        Assert.That(Measure.Rms(s_noise), Is.EqualTo(0.040).Within(4 * 0.5 * error * 0.040));
        Assert.That(4 * 0.5 * error, Is.LessThan(0.015), "sharp enough to say something");
    }

    // Equal power in every octave, within the 1.3 dB of the sum of poles and 4 errors 1/√m of m bins (18/35 of them independent).
    [Test]
    public void Spectrum_FromATenthOfAHertzOn_FallsAsOneOverF()
    {
        double[] octaves = [.. Enumerable.Range(0, 6).Select(k => Octave(0.1 * (1 << k)))];
        double middle = octaves.Average();
        for (int k = 0; k < octaves.Length; k++)
        {
            double error = 4 / Math.Sqrt(0.1 * (1 << k) * Length * 18 / 35);
            Assert.That(octaves[k] / middle, Is.InRange(Math.Pow(10, -0.13) - error, Math.Pow(10, 0.13) + error), $"octave from {0.1 * (1 << k)} Hz");
        }
    }

    [Test]
    public void Spectrum_FarBelowTheBand_IsFlat()
    {
        double low = s_power.Skip((int)(0.002 * Length)).Take((int)(0.004 * Length)).Average();
        double high = s_power.Skip((int)(0.006 * Length)).Take((int)(0.006 * Length)).Average();
        Assert.That(low / high, Is.EqualTo(1).Within(4 * Math.Sqrt((1 / (0.004 * Length)) + (1 / (0.006 * Length))) * Math.Sqrt(35.0 / 18)));
    }

    // Stationary from the first sample on: over seeds, √(2/n) of the power (chi-square).
    [TestCase(0)]
    [TestCase(30)]
    public void Power_OfTheFirstSamples_IsThatOfLaterOnes(int sample)
    {
        const int Seeds = 4000;
        double[] x = new double[sample + 1];
        double power = Enumerable.Range(0, Seeds).Average(seed =>
        {
            Array.Clear(x);
            var noise = new FlickerNoise(new KeyedRandom((ulong)seed, "test.flicker"), new KeyedRandom((ulong)seed, "test.flicker_start"), new SampleGrid(0, 1.0 / 250));
            noise.Add(x, 0, 1);
            return x[sample] * x[sample];
        });
        Assert.That(power, Is.EqualTo(1).Within(4 * Math.Sqrt(2.0 / Seeds)));
    }

    // Turned up in the middle, it is the noise that would have been there all along.
    [Test]
    public void Level_Doubled_DoublesTheSameNoise()
    {
        double[] one = EcgTap.Of(Settings.Silent().Set(EcgAmplifierKeys.FlickerNoiseUvRms, 10), 20).Millivolts;
        double[] two = EcgTap.Of(Settings.Silent().Set(EcgAmplifierKeys.FlickerNoiseUvRms, 20), 20).Millivolts;
        Assert.That(two, Is.EqualTo(one.Select(v => 2 * v)).Within(1e-15));
    }

    private static double Octave(double from)
    {
        int first = (int)(from * Length);
        return Enumerable.Range(first, first).Sum(i => s_power[i]);
    }
}
