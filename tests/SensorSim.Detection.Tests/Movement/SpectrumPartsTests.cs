// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Movement;

/// <summary>Transform, sine table, logarithm and ring of the spectrum against floating point.</summary>
[TestFixture]
public sealed class SpectrumPartsTests
{
    [Test]
    public void Transform_RandomNumbers_IsTheDefinition()
    {
        var random = new Random(5040);
        Word256 re = default;
        Word256 im = default;
        var x = new System.Numerics.Complex[256];
        for (int i = 0; i < 256; i++)
        {
            int a = random.Next(-260_000, 260_000);
            int b = random.Next(-260_000, 260_000);
            x[i] = new System.Numerics.Complex(a, b);
            re[Fft256.Reversed(i)] = a;
            im[Fft256.Reversed(i)] = b;
        }

        Fft256.Transform(ref re, ref im);
        double worst = 0;
        for (int k = 0; k < 256; k++)
        {
            System.Numerics.Complex sum = 0;
            for (int n = 0; n < 256; n++)
            {
                sum += x[n] * System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * n * k / 256);
            }

            worst = Math.Max(worst, System.Numerics.Complex.Abs(sum - new System.Numerics.Complex(re[k], im[k])));
        }

        // Sums of 16 × 260,000 in the mean; sines of 15 bits are off by 2^-16 at each of six stages: some hundred.
        Assert.That(worst, Is.LessThan(1500));
    }

    [TestCase(5041, (1 << 22) - 1)]
    [TestCase(5042, 260_000)]
    [TestCase(5043, 3)]
    public void Transform_AnyNumbers_IsTheSameToTheBitAsButterflyByButterfly(int seed, int largest)
    {
        var random = new Random(seed);
        for (int trial = 0; trial < 50; trial++)
        {
            Word256 re = default;
            Word256 im = default;
            for (int i = 0; i < 256; i++)
            {
                // Every fifth trial nothing but largest words.
                re[i] = trial % 5 == 0 ? (random.Next(2) == 0 ? largest : -largest) : random.Next(-largest, largest + 1);
                im[i] = trial % 5 == 0 ? (random.Next(2) == 0 ? largest : -largest) : random.Next(-largest, largest + 1);
            }

            (long[] x, long[] y) = Plain(re, im);
            Fft256.Transform(ref re, ref im);
            for (int k = 0; k < 256; k++)
            {
                Assert.That((re[k], im[k]), Is.EqualTo((x[k], y[k])), $"trial {trial}, place {k}");
            }
        }
    }

    [TestCase(5048, 104)]
    [TestCase(5049, 100)]
    [TestCase(5050, 61)]
    public void Make_AnyRings_IsTheSameToTheBitAsBinByBin(int seed, int length)
    {
        var random = new Random(seed);
        int step = ((1 << 15) + (length / 2)) / length;
        for (int trial = 0; trial < 40; trial++)
        {
            HalfRing light = Ring(random, length, trial % 4 == 0 ? 40 : 1 << 28);
            HalfRing artefact = Ring(random, length, trial % 5 == 0 ? 0 : 1 << (trial % 29));
            Word256 re = default;
            Word256 im = default;
            for (int i = 0; i < length; i++)
            {
                int sine = SineTable.Fine((step * i) + (step / 2));
                int hann = ((sine * sine) + 16_384) >> 15;
                re[Fft256.Reversed(i)] = ((light[i] * hann) + 1024) >> 11;
                im[Fft256.Reversed(i)] = ((artefact[i] * hann) + 1024) >> 11;
            }

            Fft256.Transform(ref re, ref im);
            System.Numerics.BigInteger[] first = [.. Enumerable.Range(1, 127).Select(k => Squares(re[k] + (long)re[256 - k], im[k] - (long)im[256 - k]))];
            System.Numerics.BigInteger[] second = [.. Enumerable.Range(1, 127).Select(k => Squares(im[k] + (long)im[256 - k], re[256 - k] - (long)re[k]))];
            int firstShift = (int)first.Max().GetBitLength() - 24;
            int secondShift = (int)second.Max().GetBitLength() - 24;

            SpectrumPair pair = default;
            pair.Make(light, artefact, length, step);
            for (int k = 1; k < 128; k++)
            {
                Assert.That(pair.First[k], Is.EqualTo((int)Scaled(first[k - 1], firstShift)), $"trial {trial}, bin {k}");
                Assert.That(pair.Second[k], Is.EqualTo((int)Scaled(second[k - 1], secondShift)), $"trial {trial}, bin {k} of the second");
            }

            Assert.That(pair.RelativeShift, Is.EqualTo(secondShift + (2 * artefact.Exponent) - firstShift - (2 * light.Exponent)), $"trial {trial}");
        }
    }

    [Test]
    public void Transform_LargestInput_DoesNotWrap()
    {
        Word256 re = default;
        Word256 im = default;
        for (int i = 0; i < 256; i++)
        {
            re[i] = (1 << 22) - 1;
            im[i] = (1 << 22) - 1;
        }

        Fft256.Transform(ref re, ref im);
        Assert.That(re[0], Is.EqualTo(256 * ((1 << 22) - 1)).Within(300_000));
        Assert.That(im[0], Is.EqualTo(256 * ((1 << 22) - 1)).Within(300_000));
    }

    [Test]
    public void Sine_EveryPlace_IsTheSineRounded()
    {
        for (int i = -300; i < 600; i++)
        {
            Assert.That(SineTable.Sine(i), Is.EqualTo(32767 * Math.Sin(2 * Math.PI * i / 256)).Within(0.5001), $"{i}");
            Assert.That(SineTable.Cosine(i), Is.EqualTo(32767 * Math.Cos(2 * Math.PI * i / 256)).Within(0.5001), $"{i}");
        }

        for (int i = 0; i < 65536; i += 7)
        {
            Assert.That(SineTable.Fine(i), Is.EqualTo(32767 * Math.Sin(2 * Math.PI * i / 65536)).Within(4), $"{i}");
        }
    }

    [Test]
    public void Log2_ManyNumbers_IsOffByAtMostFour()
    {
        for (double v = 1; v < 9e18; v *= 1.01)
        {
            long value = (long)v;
            Assert.That(Wide.Log2In256(value), Is.EqualTo(256 * Math.Log2(value)).Within(4), $"{value}");
        }

        Assert.That(Wide.Log2In256(0), Is.Zero);
    }

    [Test]
    public void Round_HalvesAndRails_GoUp()
    {
        Assert.That(Wide.Round(3, 1), Is.EqualTo(2));
        Assert.That(Wide.Round(-3, 1), Is.EqualTo(-1));
        Assert.That(Wide.Round(long.MaxValue, 1), Is.EqualTo(1L << 62));
        Assert.That(Wide.Round(-5, 0), Is.EqualTo(-5));
        Assert.That(Wide.Narrow(1L << 40, 1000), Is.EqualTo(1000));
        Assert.That(Wide.Narrow(-(1L << 40), 1000), Is.EqualTo(-1000));
        Assert.That(Wide.Shifted(5, 3), Is.EqualTo(40));
        Assert.That(Wide.Shifted(-5, -1), Is.EqualTo(-3));
        Assert.That(Wide.Bits(0), Is.Zero);
        Assert.That(Wide.Bits(255), Is.EqualTo(8));
        Assert.That(Wide.Bits(256), Is.EqualTo(9));
    }

    [Test]
    public void Ring_SignalThatGrowsAndShrinks_KeepsElevenBits()
    {
        var ring = new HalfRing();
        ring.Restart(100);
        foreach (double size in new[] { 1e3, 5e6, 2e8, 1e4, 20 })
        {
            // Twice: what is there when the exponent shrinks keeps what it lost.
            for (int i = 0; i < 200; i++)
            {
                ring.Add((int)(size * Math.Sin(0.37 * (i % 100))));
                if (i == 99)
                {
                    ring.Settle();
                }
            }

            ring.Settle();
            for (int i = 0; i < 100; i++)
            {
                double value = (double)ring[i] * (1 << ring.Exponent);
                Assert.That(value, Is.EqualTo(size * Math.Sin(0.37 * i)).Within(1 + (size / 1000)), $"{size} {i}");
            }
        }
    }

    [Test]
    public void Make_TwoLines_StandInTheirOwnSpectraWithTheRightRatio()
    {
        // 100 samples at 12.5 Hz: 2.0 Hz in one, 3.1 Hz in the other, 1 : 20.
        var one = new HalfRing();
        var two = new HalfRing();
        one.Restart(100);
        two.Restart(100);
        for (int i = 0; i < 100; i++)
        {
            one.Add((int)(1000 * Math.Sin(2 * Math.PI * 2.0 * i / 12.5)));
            two.Add((int)(20_000 * Math.Sin(2 * Math.PI * 3.1 * i / 12.5)));
        }

        SpectrumPair pair = default;
        pair.Make(one, two, 100, 327);
        int first = 1;
        int second = 1;
        for (int k = 1; k < SpectrumPair.Bins; k++)
        {
            first = pair.First[k] > pair.First[first] ? k : first;
            second = pair.Second[k] > pair.Second[second] ? k : second;
        }

        Assert.That(first, Is.EqualTo(41));
        Assert.That(second, Is.EqualTo(63).Or.EqualTo(64));
        double ratio = pair.Second[second] * Math.Pow(2, pair.RelativeShift) / pair.First[first];
        Assert.That(ratio, Is.EqualTo(400).Within(20));
    }

    private static HalfRing Ring(Random random, int length, int largest)
    {
        HalfRing ring = default;
        ring.Restart(length);
        for (int i = 0; i < length + 7; i++)
        {
            ring.Add(random.Next(-largest, largest + 1));
        }

        return ring;
    }

    private static System.Numerics.BigInteger Squares(long real, long imaginary) => ((System.Numerics.BigInteger)real * real) + ((System.Numerics.BigInteger)imaginary * imaginary);

    private static System.Numerics.BigInteger Scaled(System.Numerics.BigInteger power, int down) => down > 0 ? power >> down : power << -down;

    // The stages of radix 2 as textbooks write them, with turns of 15 bits and every product rounded.
    private static (long[] X, long[] Y) Plain(in Word256 re, in Word256 im)
    {
        long[] x = new long[256];
        long[] y = new long[256];
        for (int i = 0; i < 256; i++)
        {
            (x[i], y[i]) = (re[i], im[i]);
        }

        for (int half = 1; half < 256; half *= 2)
        {
            for (int a = 0; a < 256; a++)
            {
                if ((a & half) != 0)
                {
                    continue;
                }

                int b = a + half;
                int angle = (a & (half - 1)) * (128 / half);
                long cosine = half == 1 ? 32768 : (long)Math.Round(32767 * Math.Cos(2 * Math.PI * angle / 256));
                long sine = (long)Math.Round(32767 * Math.Sin(2 * Math.PI * angle / 256));
                long real = (long)Math.Floor((((x[b] * cosine) + (y[b] * sine)) / 32768.0) + 0.5);
                long imaginary = (long)Math.Floor((((y[b] * cosine) - (x[b] * sine)) / 32768.0) + 0.5);
                (x[b], y[b]) = (x[a] - real, y[a] - imaginary);
                (x[a], y[a]) = (x[a] + real, y[a] + imaginary);
            }
        }

        return (x, y);
    }
}
