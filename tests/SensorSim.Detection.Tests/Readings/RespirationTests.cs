// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class RespirationTests
{
    [TestCase(60, 6)]
    [TestCase(60, 12)]
    [TestCase(75, 20)]
    [TestCase(75, 30)]
    [TestCase(110, 38)]
    [TestCase(50, 18)]
    public void Add_AllThreeBreathe_IsTheirRate(double rateBpm, double breaths)
    {
        List<Reading> given = Run(rateBpm, breaths, 0.03, 0.08, 0.15, 0, 200);
        Assert.That(given, Has.Count.GreaterThan(28));
        Assert.That(given.Select(r => r.ValueMilli / 1000.0), Is.All.EqualTo(breaths).Within(0.7));
        Assert.That(given.Select(r => (int)r.Quality), Is.All.GreaterThan(190));
        Assert.That(given[0].WindowTicks256, Is.EqualTo(32 * 256_000L));
    }

    // Slow waves at 6 per minute are twice as large in the intervals as breathing; sizes and levels outvote them.
    [Test]
    public void Add_SlowWavesInTheIntervals_AreOutvoted()
    {
        List<Reading> given = Run(70, 15, 0.02, 0.08, 0.15, 0.05, 200);
        Assert.That(given, Has.Count.GreaterThan(28));
        Assert.That(given.Select(r => r.ValueMilli / 1000.0), Is.All.EqualTo(15).Within(0.8));
        Assert.That(given.Select(r => (int)r.Quality), Is.All.InRange(20, 180));
    }

    // From half of the heart rate on, beats fold breathing down. It is refused, not guessed.
    [TestCase(50, 23)]
    [TestCase(60, 28)]
    [TestCase(60, 33)] // folds to 27
    public void Add_BreathsTooFastForTheBeats_AreRefused(double rateBpm, double breaths) =>
        Assert.That(Run(rateBpm, breaths, 0.03, 0.08, 0.15, 0, 200).Where(r => Math.Abs((r.ValueMilli / 1000.0) - breaths) > 4), Is.Empty);

    [Test]
    public void Add_Noise_IsSeldomTakenForBreathing()
    {
        int given = 0;
        for (int seed = 0; seed < 10; seed++)
        {
            given += Run(70, 15, 0, 0, 0, 0, 200, 0.05, seed).Count(r => r.Quality > 100);
        }

        // 340 looks.
        Assert.That(given, Is.LessThanOrEqualTo(6));
    }

    // Without light: intervals and R peaks. Without ECG: intervals of the pulses.
    [TestCase(true, false)]
    [TestCase(false, true)]
    public void Add_OneSignalOnly_StillGivesTheRate(bool hasEcg, bool hasLight)
    {
        List<Reading> given = Run(70, 14, 0.03, 0.08, 0.15, 0, 200, 0.002, 1, hasEcg, hasLight);
        Assert.That(given, Has.Count.GreaterThan(28));
        Assert.That(given.Select(r => r.ValueMilli / 1000.0), Is.All.EqualTo(14).Within(0.7));
    }

    // The discrete Fourier transform in doubles, same window: strongest whole rate and clarity.
    [Test]
    public void Of_RandomSeries_IsTheSpectrumInDoubles()
    {
        var random = new Random(6);
        int found = 0;
        for (int trial = 0; trial < 200; trial++)
        {
            double rate = 5 + (34 * random.NextDouble());
            double size = 3 + (60 * random.NextDouble());
            var series = new BreathSeries();
            for (int i = 0; i < 200; i++)
            {
                // A value right on the grid every half second; the unit makes one step of the value one step of the series.
                series.Add(i * 128_000L, 128_000, 10_000 + (int)Math.Round((size * Math.Sin(2 * Math.PI * rate * i / 120)) + (8 * SyntheticEcg.Normal(random))), 256);
            }

            double[] x = [.. Enumerable.Range(0, 64).Select(n => (double)series[n])];
            (double top, double clarity) = Twin(x);
            BreathSpectrum spectrum = BreathSpectrum.Of(series);
            if (spectrum.Clarity == 0)
            {
                continue;
            }

            found++;
            Assert.That(spectrum.RateMilli / 1000.0, Is.EqualTo(top).Within(0.03));
            Assert.That(spectrum.Clarity, Is.EqualTo(clarity * 255).Within(2));
        }

        Assert.That(found, Is.GreaterThan(180));
    }

    private static (double Rate, double Clarity) Twin(double[] x)
    {
        double mean = x.Average();
        double slope = x.Select((v, n) => (n - 31.5) * v).Sum() / x.Select((_, n) => (n - 31.5) * (n - 31.5)).Sum();
        double[] powers = [.. Enumerable.Range(4, 37).Select(rate =>
        {
            double re = 0;
            double im = 0;
            for (int n = 0; n < 64; n++)
            {
                double v = (x[n] - mean - (slope * (n - 31.5))) * n * (63 - n);
                re += v * Math.Cos(2 * Math.PI * rate * n / 120);
                im += v * Math.Sin(2 * Math.PI * rate * n / 120);
            }

            return (re * re) + (im * im);
        })];
        int top = Enumerable.Range(1, 35).MaxBy(k => powers[k]);
        double left = powers[top] - powers[top - 1];
        double right = powers[top] - powers[top + 1];
        double near = powers.Where((_, k) => Math.Abs(k - top) <= 3).Sum();
        return (top + 4 + ((left - right) / (2 * (left + right))), near / powers.Sum());
    }

    private static List<Reading> Run(
        double rateBpm, double breaths, double interval, double size, double level, double slow, int durationS, double noise = 0.002, int seed = 1,
        bool hasEcg = true, bool hasLight = true)
    {
        var random = new Random(seed);
        var respiration = new Respiration();
        respiration.Start(new CommonClock(1000));
        var given = new List<Reading>();
        double t = 1;
        for (bool isFirst = true; t < durationS; isFirst = false)
        {
            double phase = 2 * Math.PI * breaths / 60 * t;
            double Noise() => noise * SyntheticEcg.Normal(random);
            t += 60 / rateBpm * (1 + (interval * Math.Sin(phase)) + (slow * Math.Sin(2 * Math.PI * 0.1 * t)) + Noise());
            phase = 2 * Math.PI * breaths / 60 * t;
            int r = (int)(1000 * (1 + (size * Math.Sin(phase)) + Noise()));
            int amplitude = (int)(4000 * (1 + (size * Math.Sin(phase + 1)) + Noise()));
            int light = 400_000 + (int)(4000 * ((level * Math.Sin(phase + 2)) + Noise()));
            if (hasEcg && respiration.AddBeat((long)(t * 256_000), isFirst, r))
            {
                given.Add(respiration.Latest);
            }

            if (hasLight && respiration.AddPulse((long)((t + 0.2) * 256_000), isFirst, amplitude, light))
            {
                given.Add(respiration.Latest);
            }
        }

        return given;
    }
}
