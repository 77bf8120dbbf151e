// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests;

/// <summary>The folded transform against the plain one, in the same whole numbers.</summary>
[TestFixture]
public sealed class BreathSpectrumTests
{
    [Test]
    public void Of_AnySeries_IsTheSameToTheBitAsProductByProduct()
    {
        var random = new Random(5101);
        int found = 0;
        for (int trial = 0; trial < 400; trial++)
        {
            double rate = 5 + (34 * random.NextDouble());
            int size = random.Next(5, 100);
            var series = new BreathSeries();
            for (int i = 0; i < 200; i++)
            {
                int value = 10_000 + (int)((size * Math.Sin(2 * Math.PI * rate * i / 120)) + (20 * SyntheticEcg.Normal(random)));
                series.Add(i * 128_000L, 128_000, value, 256);
            }

            BreathSpectrum spectrum = BreathSpectrum.Of(series);
            (int rateMilli, int clarity) = Plain([.. Enumerable.Range(0, 64).Select(n => series[n])]);
            Assert.That((spectrum.RateMilli, spectrum.Clarity), Is.EqualTo((rateMilli, clarity)), $"trial {trial}");
            found += clarity > 0 ? 1 : 0;
        }

        Assert.That(found, Is.GreaterThan(200));
    }

    // The definition: Σ x(n) cos and Σ x(n) sin at 4 to 40 per minute, cosines rounded to 14 bits.
    private static (int RateMilli, int Clarity) Plain(int[] series)
    {
        int sum = series.Sum();
        int tilt = series.Select((v, n) => ((2 * n) - 63) * v).Sum();
        int rise = (int)Math.Floor((Math.Abs(tilt) * 4096.0 / 87_360) + 0.5) * Math.Sign(tilt);
        long[] shaped = [.. series.Select((v, n) =>
            (long)Shift.Round(((v * 16) - Shift.Round(sum, 2) - Shift.Round(rise * ((2 * n) - 63), 8)) * (n * (63 - n)), 4))];
        long[] powers = new long[37];
        for (int k = 0; k < powers.Length; k++)
        {
            long real = shaped.Select((v, n) => v * Cosine(n * (k + 4))).Sum() >> 16;
            long imaginary = shaped.Select((v, n) => v * Cosine((n * (k + 4)) + 90)).Sum() >> 16;
            powers[k] = (real * real) + (imaginary * imaginary);
        }

        int down = Math.Max(0, 64 - System.Numerics.BitOperations.LeadingZeroCount((ulong)powers.Max()) - 29);
        powers = [.. powers.Select(p => p >> down)];
        int top = Enumerable.Range(1, 35).MaxBy(k => powers[k]);
        if (powers[top] < powers[top - 1] || powers[top] < powers[top + 1] || powers[top] == 0)
        {
            return (0, 0);
        }

        long near = powers[Math.Max(0, top - 3)..Math.Min(37, top + 4)].Sum();
        int offset256 = Parabola.Vertex256((int)powers[top - 1], (int)powers[top], (int)powers[top + 1]);
        int more = Math.Max(0, 64 - System.Numerics.BitOperations.LeadingZeroCount((ulong)powers.Sum()) - 31);
        int clarity = (int)Math.Floor(((near >> more) * 255.0 / (powers.Sum() >> more)) + 0.5);
        return (((top + 4) * 1000) + Shift.Round(offset256 * 1000, 8), clarity);
    }

    private static long Cosine(int phase) => (long)Math.Round(16384 * Math.Cos(2 * Math.PI * (phase % 120) / 120));
}
