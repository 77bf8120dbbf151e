// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Conversion;

/// <summary>
/// Triangular dither of two codes, peak to peak: mean and power of the whole error do not depend on the signal, and the power is 1/4 of a
/// squared code instead of 1/12 (Lipshitz, Wannamaker and Vanderkooy, J Audio Eng Soc 40:355, 1992).
/// </summary>
public sealed class DitherTests
{
    private const int Count = 400_000;

    [TestCase(0.0)]
    [TestCase(0.1)]
    [TestCase(0.25)]
    [TestCase(0.5)]
    [TestCase(0.731)]
    [TestCase(-12.9)]
    public void Error_OfASteadyValue_HasNoMeanAndAQuarterOfPower(double value)
    {
        double[] error = Error([.. Enumerable.Repeat(value, Count)], "triangular");
        double[] squares = [.. error.Select(e => e * e)];
        double power = squares.Average();
        double wide = Math.Sqrt(squares.Average(s => (s - power) * (s - power)) / Count);
        Assert.That(error.Average(), Is.EqualTo(0).Within(4 * Math.Sqrt(0.25 / Count)), "mean");
        Assert.That(power, Is.EqualTo(0.25).Within(4 * wide), "power");
    }

    // Without dither the error is the signal's: a quarter of a code is always a quarter too low.
    [Test]
    public void Error_WithoutDither_IsThatOfTheValue() =>
        Assert.That(Error([.. Enumerable.Repeat(0.25, 100)], "off"), Has.All.EqualTo(-0.25));

    [Test]
    public void Error_OfAnySignal_IsNotCorrelatedWithItsPlaceBetweenTwoCodes()
    {
        var random = new KeyedRandom(3, "tests.dither");
        double[] values = [.. Enumerable.Range(0, Count).Select(i => random.Uniform(i) * 100)];
        double[] place = [.. values.Select(v => Math.Abs(v - Math.Round(v)))];
        double[] side = [.. values.Select(v => v - Math.Round(v))];
        double[] error = Error(values, "triangular");
        double[] power = [.. error.Select(e => e * e)];

        // Correlation of independent series: standard error 1/√n (textbook). Without dither it is −1 and 1.
        Assert.That(Correlation(side, error), Is.EqualTo(0).Within(4 / Math.Sqrt(Count)));
        Assert.That(Correlation(place, power), Is.EqualTo(0).Within(4 / Math.Sqrt(Count)));
        double[] plain = Error(values, "off");
        Assert.That(Correlation(side, plain), Is.EqualTo(-1).Within(1e-9));
        Assert.That(Correlation(place, [.. plain.Select(e => e * e)]), Is.GreaterThan(0.9));
    }

    // 6.02 · 16 + 1.76 dB less the threefold power of the error: 98.08 − 4.77 = 93.31 dB.
    [Test]
    public void Ratio_OfAFullScaleSine_Is477DecibelLess()
    {
        double[] sine = [.. Enumerable.Range(0, 1_000_000).Select(i => 32765 * Math.Sin(i * 0.1234567))];
        double[] error = Error(sine, "triangular");
        Assert.That(10 * Math.Log10(sine.Average(v => v * v) / error.Average(e => e * e)), Is.EqualTo(93.31).Within(0.1));
    }

    private static double Correlation(double[] a, double[] b) => MathNet.Numerics.Statistics.Correlation.Pearson(a, b);

    private static double[] Error(double[] values, string dither) =>
        [.. Converted.Of(new KeyValues().Set(ConversionKeys.Ecg.Dither, dither), Converted.Format(), values).Codes.Zip(values, (c, v) => c - v)];
}
