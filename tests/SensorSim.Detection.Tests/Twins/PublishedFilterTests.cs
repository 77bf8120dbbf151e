// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>
/// The way these tests measure filters, against filters of whole numbers that others have published: the low-pass and high-pass of Pan and
/// Tompkins 1985 (IEEE Trans Biomed Eng 32:230) at 200 samples a second, difference equations as in Tompkins 1993, chapter 12.
/// </summary>
[TestFixture]
public sealed class PublishedFilterTests
{
    private const double RateHz = 200;

    // H = (1 − z^−6)² / (1 − z^−1)²: the published recurrence.
    private static double[] LowPass { get; } = FilterMeasure.Impulse(LowPassFilter(), 64);

    // All-pass of 16 samples minus the mean of 32; times 32 to stay whole.
    private static double[] HighPass32 { get; } = FilterMeasure.Impulse(HighPass32Filter(), 64);

    [Test]
    public void Impulse_OfTheLowPass_IsTheTriangle() => Assert.That(
        LowPass, Is.EqualTo(new double[] { 1, 2, 3, 4, 5, 6, 5, 4, 3, 2, 1 }.Concat(new double[53])));

    [Test]
    public void Impulse_OfTheHighPass_IsASpikeLessItsMean() => Assert.That(
        HighPass32, Is.EqualTo(Enumerable.Repeat(-1.0, 16).Append(31).Concat(Enumerable.Repeat(-1.0, 15)).Concat(new double[32])));

    // Magnitudes computed from the transfer functions, low-pass over its gain of 36 at 0 Hz; to the digits given.
    [TestCase(1, 0.9971, 0.0443, 0.0442)]
    [TestCase(2, 0.9885, 0.1626, 0.1607)]
    [TestCase(5, 0.9300, 0.7668, 0.7132)]
    [TestCase(8, 0.8287, 1.1908, 0.9868)]
    [TestCase(10, 0.7429, 1.1880, 0.8826)]
    [TestCase(12, 0.6477, 1.0408, 0.6741)]
    [TestCase(15, 0.4972, 0.8767, 0.4359)]
    [TestCase(20, 0.2631, 1.0567, 0.2780)]
    [TestCase(25, 0.0948, 1.0000, 0.0948)]
    [TestCase(30, 0.0129, 0.9641, 0.0124)]
    [TestCase(50, 0.0556, 1.0000, 0.0556)]
    [TestCase(60, 0.0147, 1.0220, 0.0150)]
    public void Gain_AtAFrequency_IsThatOfTheTable(double hz, double low, double high, double both)
    {
        double[] band = Convolved(LowPass, HighPass32);
        Assert.That(FilterMeasure.Gain(LowPass, hz, RateHz) / 36, Is.EqualTo(low).Within(0.00005));
        Assert.That(FilterMeasure.Gain(HighPass32, hz, RateHz) / 32, Is.EqualTo(high).Within(0.00005));
        Assert.That(FilterMeasure.Gain(band, hz, RateHz) / 36 / 32, Is.EqualTo(both).Within(0.00005));
    }

    // The paper gives 6 samples for the low-pass; its symmetric answer 1 … 6 … 1 has its middle at 5.
    [Test]
    public void Delay_OfTheLowPass_IsFiveSamples()
    {
        Assert.That(FilterMeasure.Delay(LowPass, 3, RateHz), Is.EqualTo(5).Within(1e-9));
        Assert.That(FilterMeasure.Delay(LowPass, 20, RateHz), Is.EqualTo(5).Within(1e-9));
    }

    // At multiples of 200/32 = 6.25 Hz the mean gives nothing and only the spike is left; over a whole such interval the delay is its 16 samples.
    [TestCase(6.25)]
    [TestCase(12.5)]
    [TestCase(25)]
    public void GainAndDelay_OfTheHighPass_AreThoseOfItsSpike(double hz)
    {
        Assert.That(FilterMeasure.Gain(HighPass32, hz, RateHz) / 32, Is.EqualTo(1).Within(1e-9));
        double mean = Enumerable.Range(0, 1000).Average(i => FilterMeasure.Delay(HighPass32, hz + (6.25 * (i + 0.5) / 1000), RateHz));
        Assert.That(mean, Is.EqualTo(16).Within(0.2));
    }

    [Test]
    public void Corners_AndRipple_AreThePublishedOnes()
    {
        double[] band = Convolved(LowPass, HighPass32);
        Assert.That(FilterMeasure.Crossing(LowPass, 36 * Math.Sqrt(0.5), 5, 20, RateHz), Is.EqualTo(10.77).Within(0.005));
        Assert.That(FilterMeasure.Crossing(HighPass32, 32 * Math.Sqrt(0.5), 2, 8, RateHz), Is.EqualTo(4.72).Within(0.005));
        (double ripple, double rippleHz) = FilterMeasure.Top(HighPass32, 5, 15, RateHz);
        Assert.That((ripple / 32, rippleHz), Is.EqualTo((1.216, 8.9)).Using<(double, double)>((a, b) => Near(a.Item1, b.Item1, 0.0005) && Near(a.Item2, b.Item2, 0.05)));
        (double top, double topHz) = FilterMeasure.Top(band, 5, 12, RateHz);
        Assert.That(top / 36 / 32, Is.EqualTo(0.987).Within(0.0005));
        Assert.That(topHz, Is.EqualTo(7.98).Within(0.01));
        Assert.That(FilterMeasure.Crossing(band, top * Math.Sqrt(0.5), 3, 7, RateHz), Is.EqualTo(4.9).Within(0.05));
        Assert.That(FilterMeasure.Crossing(band, top * Math.Sqrt(0.5), 9, 15, RateHz), Is.EqualTo(11.8).Within(0.05));
    }

    // The low-pass is two sums of six: made of the library's moving sums it is the same filter.
    [Test]
    public void MovingSum_TwiceSixSamples_IsThePublishedLowPass()
    {
        MovingSum first = default;
        MovingSum second = default;
        first.Restart(6, 0);
        second.Restart(6, 0);
        Assert.That(FilterMeasure.Impulse(v => second.Next(first.Next(v)), 64), Is.EqualTo(LowPass));
    }

    // 12 bits in, gain 36 at the most: +5.2 bits, 18 with the sign.
    [Test]
    public void LowPass_TwelveBitsOfAConstant_NeedsEighteen()
    {
        Func<int, int> filter = LowPassFilter();
        int last = 0;
        for (int i = 0; i < 50; i++)
        {
            last = filter(-2048);
        }

        Assert.That(last, Is.EqualTo(-2048 * 36));
        Assert.That(-last, Is.InRange((1 << 16) + 1, 1 << 17));
    }

    private static bool Near(double a, double b, double tolerance) => Math.Abs(a - b) <= tolerance;

    private static Func<int, int> LowPassFilter()
    {
        var x = new int[13];
        int y1 = 0;
        int y2 = 0;
        return value =>
        {
            Array.Copy(x, 0, x, 1, 12);
            x[0] = value;
            int y = (2 * y1) - y2 + x[0] - (2 * x[6]) + x[12];
            (y2, y1) = (y1, y);
            return y;
        };
    }

    private static Func<int, int> HighPass32Filter()
    {
        var x = new int[33];
        int sum = 0;
        return value =>
        {
            Array.Copy(x, 0, x, 1, 32);
            x[0] = value;
            sum += x[0] - x[32];
            return (32 * x[16]) - sum;
        };
    }

    private static double[] Convolved(double[] a, double[] b)
    {
        var product = new double[a.Length + b.Length - 1];
        for (int i = 0; i < a.Length; i++)
        {
            for (int k = 0; k < b.Length; k++)
            {
                product[i + k] += a[i] * b[k];
            }
        }

        return product;
    }
}
