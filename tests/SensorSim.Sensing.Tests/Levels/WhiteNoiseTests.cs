// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Tests.Support;

namespace SensorSim.Sensing.Tests.Levels;

/// <summary>White noise has the stated level and nothing else: tolerances are 4 standard errors of n independent Gaussian samples.</summary>
public sealed class WhiteNoiseTests
{
    private const int Rate = 100;
    private static readonly double[][] s_noise = [.. NoiseOnly.Channels(Rate, 600)];

    // Density × √(rate / 2): white over 0 to half the rate (textbook); 200 µg/√Hz over 50 Hz.
    private static readonly double s_accelG = 200e-6 * Math.Sqrt(50);
    private static readonly double[] s_expected =
        [NoiseOnly.EcgUv * 1e-3, NoiseOnly.OpticsNa, NoiseOnly.OpticsNa, NoiseOnly.OpticsNa, s_accelG, s_accelG, s_accelG];

    [Test]
    public void Rms_OfEveryChannel_IsAsStated([Range(0, 6)] int channel)
    {
        // Standard error of a Gaussian rms: σ/√(2n) (textbook).
        double n = s_noise[channel].Length;
        Assert.That(Measure.Rms(s_noise[channel]), Is.EqualTo(s_expected[channel]).Within(s_expected[channel] * 4 / Math.Sqrt(2 * n)));
    }

    [Test]
    public void Mean_OfEveryChannel_IsZero([Range(0, 6)] int channel) =>
        Assert.That(s_noise[channel].Average(), Is.EqualTo(0).Within(4 * s_expected[channel] / Math.Sqrt(s_noise[channel].Length)));

    [Test]
    public void Autocorrelation_OfEveryChannel_IsThatOfWhiteNoise([Range(0, 6)] int channel, [Range(1, 5)] int lag)
    {
        // White noise: standard error 1/√n at every lag (Bartlett 1946; textbook).
        double n = s_noise[channel].Length;
        Assert.That(Measure.Autocorrelation(s_noise[channel], lag), Is.EqualTo(0).Within(4 / Math.Sqrt(n)));
    }

    [Test]
    public void Spectrum_OfEveryChannel_IsFlat([Range(0, 6)] int channel)
    {
        // Ten equal bands. A Hann window correlates neighbouring bins: of m bins, 18/35 m count (Welch 1967; Harris 1978).
        double[] power = Measure.Spectrum(s_noise[channel]);
        int width = power.Length / 10;
        double[] bands = [.. Enumerable.Range(0, 10).Select(b => power.Skip(Math.Max(2, b * width)).Take(width).Average())];
        double mean = bands.Average();
        double error = 4 / Math.Sqrt(width * 18.0 / 35);
        Assert.That(bands, Has.All.EqualTo(mean).Within(mean * error));
    }

    [Test]
    public void Kurtosis_OfEveryChannel_IsGaussian([Range(0, 6)] int channel)
    {
        // Excess kurtosis of n Gaussian samples: standard error √(24/n) (Fisher 1930; textbook).
        double[] x = s_noise[channel];
        double square = x.Average(v => v * v);
        double excess = (x.Average(v => v * v * v * v) / (square * square)) - 3;
        Assert.That(excess, Is.EqualTo(0).Within(4 * Math.Sqrt(24.0 / x.Length)));
    }

    [Test]
    public void AccelerometerRms_AtFourTimesTheRate_IsTwiceAsLarge()
    {
        double[] z = NoiseOnly.Channels(4 * Rate, 200).Last();
        Assert.That(Measure.Rms(z), Is.EqualTo(2 * s_accelG).Within(2 * s_accelG * 4 / Math.Sqrt(2.0 * z.Length)));
    }

    [Test]
    public void EcgRms_AtFourTimesTheRate_IsTheSame()
    {
        double[] ecg = NoiseOnly.Channels(4 * Rate, 200).First();
        Assert.That(Measure.Rms(ecg), Is.EqualTo(s_expected[0]).Within(s_expected[0] * 4 / Math.Sqrt(2.0 * ecg.Length)));
    }
}
