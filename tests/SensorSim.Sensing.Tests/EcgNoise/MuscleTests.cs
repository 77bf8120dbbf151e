// SPDX-License-Identifier: MIT
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.EcgNoise;

/// <summary>Muscle noise: level, spectrum of the surface EMG (Shwedyk et al. 1977, corners 60 and 120 Hz from memory), bursts.</summary>
public sealed class MuscleTests
{
    private const double Seconds = 600;

    private static double[] Muscle(int rate, double seconds = Seconds)
    {
        KeyValues clean = Settings.Silent().Set(EcgAmplifierKeys.RateHz, rate);
        return AnalogEcg.Of(clean.Copy().Set(EcgNoiseKeys.MuscleUvRms, 50), seconds);
    }

    [TestCase(50)]
    [TestCase(250)]
    [TestCase(1000)]
    public void MuscleUvRms_OverTime_IsAsStated(int rate)
    {
        double[] x = Muscle(rate, rate == 1000 ? 100 : Seconds);

        // Effective samples of a coloured Gaussian process: n (∫S)² / (bandwidth ∫S²) (Bendat and Piersol; textbook), here from the spectrum itself.
        double[] power = Measure.Spectrum(x);
        double effective = power.Sum() * power.Sum() / power.Sum(p => p * p) * 2 * 2;
        Assert.That(1000 * Measure.Rms(x), Is.EqualTo(50).Within(50 * 4 / Math.Sqrt(2 * effective)));
    }

    // Shares of f²/((f² + 60²)(f² + 120²)²) in bands, over 0 to half the rate: scipy.integrate.quad.
    [TestCase(250, 20, 40, 0.127109)]
    [TestCase(250, 40, 80, 0.443337)]
    [TestCase(250, 80, 120, 0.370119)]
    [TestCase(1000, 20, 40, 0.0847621)]
    [TestCase(1000, 40, 80, 0.295639)]
    [TestCase(1000, 120, 200, 0.231803)]
    [TestCase(1000, 200, 400, 0.113887)]
    public void MuscleSpectrum_InABand_IsThatOfTheSurfaceEmg(int rate, double low, double high, double share)
    {
        var filter = new MuscleFilter(rate);
        Assert.That(filter.Share(low, high), Is.EqualTo(share).Within(0.03 * share), "from the taps");
        double[] x = Muscle(rate, 200);
        double[] power = Measure.Spectrum(x);
        double perBin = rate / (double)x.Length;
        double measured = power[(int)(low / perBin)..(int)(high / perBin)].Sum() / power.Sum();

        // Of m bins under a Hann window 18/35 m count (Welch 1967).
        double error = 4 / Math.Sqrt((high - low) / perBin * 18 / 35);
        Assert.That(measured, Is.EqualTo(share).Within((error + 0.03) * share), "measured");
    }

    [Test]
    public void Share_OfEverything_IsOne()
    {
        foreach (int rate in new[] { 50, 125, 250, 500, 2000 })
        {
            Assert.That(new MuscleFilter(rate).Share(0, rate / 2.0), Is.EqualTo(1).Within(1e-4), $"{rate} Hz");
        }
    }

    [Test]
    public void MuscleKurtosis_IsGaussian()
    {
        double[] x = Muscle(250);
        double square = x.Average(v => v * v);
        double excess = (x.Average(v => v * v * v * v) / (square * square)) - 3;

        // √(24/n) (Fisher 1930), with the effective number of samples at least a half of n here.
        Assert.That(excess, Is.EqualTo(0).Within(4 * Math.Sqrt(48.0 / x.Length)));
    }

    // Lanes of four and single samples must agree to the bit, wherever a stretch begins.
    [Test]
    public void Make_InStretchesOfAnyLength_GivesTheSameBits()
    {
        var filter = new MuscleFilter(250);
        var random = new KeyedRandom(5, "test.muscle_filter");
        var draws = new double[filter.DrawsFor(MuscleFilter.LongestStretch)];
        var whole = new double[200];
        filter.Make(random, 1000, whole, draws);
        for (int length = 1; length < 40; length++)
        {
            for (int i = 0; i + length <= whole.Length; i += length)
            {
                var part = new double[length];
                filter.Make(random, 1000 + i, part, draws);
                Assert.That(part, Is.EqualTo(whole[i..(i + length)]), $"from {i}, {length} long");
            }
        }
    }

    // Campbell: mean power = rate × mean length × ∫e² = 12/60 × 2 s × (1 − 0.4 × 22/35) × level²; smoothstep's mean square is 13/35.
    [Test]
    public void MuscleBursts_OverFiveHours_HaveTheMeanPowerOfCampbellsTheorem()
    {
        const double Hours = 5 * 3600;
        const int Rate = 100;
        var filter = new MuscleFilter(Rate);
        var bursts = new MuscleBursts(
            filter, new KeyedRandom(3, "test.burst_noise"), new KeyedRandom(3, "test.burst_times"), new SampleGrid(0, 1.0 / Rate), 12, 2);
        double sum = 0;
        var buffer = new double[Rate];
        for (int second = 0; second < Hours; second++)
        {
            Array.Clear(buffer);
            bursts.Add(buffer, second * (long)Rate, 0.05);
            sum += buffer.Sum(v => v * v) / Rate;
        }

        double expected = 12.0 / 60 * 2 * (1 - (0.4 * 22 / 35)) * 0.05 * 0.05;

        // 3,600 bursts, mean square of their length 13/12 of the squared mean; the noise within a burst adds less.
        double error = 4 * Math.Sqrt(13.0 / 12 / (Hours * 12 / 60)) * 1.1;
        Assert.That(sum / Hours, Is.EqualTo(expected).Within(expected * error));

        var values = Settings.Steady().Set(EcgNoiseKeys.MuscleBurstUvRms, 50).Set(EcgNoiseKeys.MuscleBurstPerMin, 12).Set(EcgNoiseKeys.MuscleBurstS, 2);
        Assert.That(new EcgNoiseLevels(values).RmsMv(EcgNoiseKind.MuscleBursts, 0), Is.EqualTo(Math.Sqrt(expected)).Within(1e-12));
    }

    // More bursts leave those where they were that there were before: every sample of the smaller train lies under the larger one's envelope.
    [Test]
    public void MuscleBurstPerMin_Raised_MovesNoBurst()
    {
        KeyValues values = Settings.Silent().Set(EcgNoiseKeys.MuscleBurstUvRms, 100);
        double[] few = AnalogEcg.Of(values.Copy().Set(EcgNoiseKeys.MuscleBurstPerMin, 3), 300);
        double[] many = AnalogEcg.Of(values.Copy().Set(EcgNoiseKeys.MuscleBurstPerMin, 6), 300);
        int loud = few.Count(v => v != 0);
        Assert.That(loud, Is.GreaterThan(1000));
        Assert.That(few.Zip(many).Count(p => p.First != 0 && Math.Abs(p.Second) < Math.Abs(p.First) * (1 - 1e-12)), Is.Zero);
        Assert.That(few.Zip(many).Count(p => p.First != 0 && p.First == p.Second), Is.GreaterThan(loud / 2), "mostly alone");
        Assert.That(many.Count(v => v != 0), Is.GreaterThan(loud * 1.3));
    }

    [Test]
    public void MuscleBursts_WithoutRate_AreNone() =>
        Assert.That(AnalogEcg.Of(Settings.Silent().Set(EcgNoiseKeys.MuscleBurstUvRms, 100).Set(EcgNoiseKeys.MuscleBurstPerMin, 0), 60), Has.All.Zero);
}
