// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Conversion;

public sealed class JitterTests
{
    private const int Count = 400_000;
    private const double Rate = 1000;
    private static readonly ConversionKeys s_keys = ConversionKeys.Ecg;

    // A sine sampled with jitter has −20 log10(2π f σ) dB (textbook of converters): 5 Hz and 50 µs 56.08, 7 Hz and 50 µs 53.15, 7 Hz and 5 µs 73.15 dB.
    [TestCase(5, 50, 56.08)]
    [TestCase(7, 50, 53.15)]
    [TestCase(7, 5, 73.15)]
    public void Ratio_OfASine_IsThatOfItsSlope(double hz, double jitterUs, double decibel)
    {
        double[] sine = Sine(hz);
        double[] moved = Moved(sine, jitterUs);
        double error = Measure.Less(moved, sine).Average(e => e * e);

        // Power of δ² cos²: standard error √(3.5 / n) of it (moments of normal numbers and of a sine); the slope between samples: 0.01 % less.
        double wide = 10 * Math.Log10(1 + (4 * Math.Sqrt(3.5 / Count)));
        Assert.That(10 * Math.Log10(sine.Average(v => v * v) / error), Is.EqualTo(decibel).Within(wide + 0.006));
    }

    // Against the sine at the moved instants: off by at most |δ| (|δ| + T) / 2 times the largest second derivative (Taylor).
    [TestCase(2, 100)]
    [TestCase(30, 100)]
    [TestCase(120, 30)]
    public void Sample_OfASine_IsThatAtTheMovedInstantWithinTheBound(double hz, double jitterUs)
    {
        var draws = new KeyedRandom(7, "conversion.jitter_e");
        double[] moved = Moved(Sine(hz), jitterUs);
        double curvature = Math.Pow(2 * Math.PI * hz, 2);
        for (int i = 1; i < 20_000; i++)
        {
            double delta = jitterUs * 1e-6 * draws.Normal(i);
            double exact = Math.Sin(2 * Math.PI * hz * ((i / Rate) + delta));
            double bound = 0.5 * Math.Abs(delta) * (Math.Abs(delta) + (1 / Rate)) * curvature;
            Assert.That(moved[i], Is.EqualTo(exact).Within(bound + 1e-12), $"sample {i}");
        }
    }

    [Test]
    public void Jitter_Threefold_AddsThreeTimesTheSame()
    {
        KeyValues values = Settings.Everything();
        foreach (ConversionKeys keys in new[] { ConversionKeys.Ecg, ConversionKeys.Optics, ConversionKeys.Accelerometer })
        {
            double[] off = Analog(values, keys, 0);
            double[] low = Analog(values, keys, 50);
            double[] high = Analog(values, keys, 150);
            double size = low.Zip(off, (a, b) => Math.Abs(a - b)).Max();
            Assert.That(size, Is.GreaterThan(0));
            Assert.That(Enumerable.Range(0, off.Length).Max(i => Math.Abs(high[i] - off[i] - (3 * (low[i] - off[i])))), Is.LessThan(1e-9 * off.Max(Math.Abs)));
        }
    }

    // Analog values of every channel, one after the other.
    private static double[] Analog(KeyValues values, ConversionKeys keys, double jitterUs)
    {
        var stream = new SensorStream(values.Copy().Set(keys.JitterUsRms, jitterUs), 7, 10);
        List<double> all = [];
        stream.AnalogTap = (channel, _, analog) =>
        {
            if (ConversionKeys.Of(channel) == keys)
            {
                all.AddRange(analog);
            }
        };
        Recording.OfRest(stream, 500);
        return [.. all];
    }

    private static double[] Sine(double hz) => [.. Enumerable.Range(0, Count).Select(i => Math.Sin(2 * Math.PI * hz * i / Rate))];

    private static double[] Moved(double[] sine, double jitterUs) => Converted.Of(
        new KeyValues().Set(s_keys.JitterUsRms, jitterUs), Converted.Format(bits: 24, rateHz: (int)Rate, unit: 1e-6), sine).Analog;
}
