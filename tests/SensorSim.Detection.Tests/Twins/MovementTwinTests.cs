// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Movement;
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>What fixed point costs reference, canceller and the heart rate by spectrum.</summary>
[TestFixture]
public sealed class MovementTwinTests
{
    // Closed form. Rounding half up after s bits errs by 2^-s/2 in the mean and with (1 − 4^-s)/12; in each section it goes round the pole
    // p = 1 − 2^-s, so it makes half a unit of mean, added in the first function and taken off in each of the next, and 1/(1 − p²) of the power.
    // All-passes hand on what came before. The input is rounded twice (scale, level), 1/6, of which the first function lets (1 − p)/(1 + p) pass.
    [TestCase(25, 1)]
    [TestCase(50, 2)]
    [TestCase(64, 2)]
    [TestCase(400, 2)]
    public void Reference_AnyRate_HasTheRoundingOfTheClosedForm(int accelHz, int shift)
    {
        double p = 1 - Math.ScaleB(1, -shift);
        double own = (1 - Math.Pow(4, -shift)) / 12 / (1 - (p * p));
        double[] means = [.. Enumerable.Range(0, 4).Select(i => 0.5 - (0.5 * i))];
        double[] powers = [.. Enumerable.Range(0, 4).Select(i => ((1 - p) / (1 + p) / 6) + ((i + 1) * own))];
        double mean = means.Average();
        double sd = Math.Sqrt(powers.Average() + means.Average(m => (m - mean) * (m - mean)));
        MovementCosts costs = MovementCosts.Of("pole 2 Hz", 25, accelHz, 1);
        Assert.That(costs.Functions.SignalRms, Is.GreaterThan(3000));
        Assert.That(costs.Functions.ErrorMean, Is.EqualTo(mean).Within(0.02));
        Assert.That(costs.Functions.ErrorSd, Is.EqualTo(sd).Within(5).Percent);

        // One more or less in some 2^24 at most seldom moves a power across a power of two.
        Assert.That(costs.OtherPowers, Is.LessThan(0.1));
    }

    // Level, estimate and the line between two steps are rounded to a code: √(3/12) = 0.5 codes of the light. Functions that are 0.9 units off
    // times weights of a third of a code a unit, twelve of them: another code or so. So 2 codes, or −60 dB of the light where that is more.
    [TestCase("pole 1 Hz", 100, 50, 1)]
    [TestCase("pole 2 Hz", 100, 50, 1)]
    [TestCase("delay 60 ms", 100, 50, 1)]
    [TestCase("pole 2 Hz", 200, 50, 1)]
    [TestCase("pole 2 Hz", 100, 50, 0.02)]
    [TestCase("pole 2 Hz", 100, 50, 30)]
    public void Canceller_AnyWay_TakesOffWhatItsTwinDoes(string way, int lightHz, int accelHz, double size)
    {
        MovementCosts costs = MovementCosts.Of(way, lightHz, accelHz, size);
        double mostCodes = Math.Max(2, costs.Output.SignalRms / 1000);
        Assert.That(costs.Output.SignalRms, Is.GreaterThan(10));
        Assert.That(costs.Output.ErrorSd, Is.LessThan(mostCodes));
        Assert.That(costs.Output.ErrorMean, Is.EqualTo(0).Within(mostCodes));
        Assert.That(costs.TwinDb, Is.GreaterThan(13));
        Assert.That(costs.FixedDb, Is.EqualTo(costs.TwinDb).Within(0.1));

        // Whether it helps is seen at a limit that both pass within a few steps.
        Assert.That(costs.OtherUse, Is.LessThan(1));
    }

    [Test]
    public void Weights_OfTwelveBits_StallAndOfTwentyTwoDoNot()
    {
        double exact = CancellerRun.Of("pole 2 Hz", default, default).AttenuationDb;
        Assert.That(CancellerRun.Of("pole 2 Hz", default, CancellerRun.Words(22)).AttenuationDb, Is.EqualTo(exact).Within(0.2));
        Assert.That(CancellerRun.Of("pole 2 Hz", default, CancellerRun.Words(12)).AttenuationDb, Is.LessThan(exact - 3));
    }

    // Rounding to an eighth, half up: 1/16 of mean and (1 − 4^-3)/12 of power, round a pole of 7/8.
    [TestCase(52)]
    [TestCase(110)]
    public void SpectrumInput_Rest_HasTheRoundingOfTheClosedForm(double bpm)
    {
        int[] light = new SyntheticPulse { RateHz = 100, BeatS = 60 / bpm, SnrDb = 24 }.Make(240, 5050);
        StageCost cost = SpectrumCosts.Of(light, new int[light.Length], 100, _ => bpm).Input;
        Assert.That(cost.ErrorMean, Is.EqualTo(-0.5).Within(0.1));
        Assert.That(cost.ErrorSd, Is.EqualTo(Math.Sqrt((1 - (1 / 64.0)) / 12 / (1 - (49 / 64.0)))).Within(10).Percent);
    }

    // The window is off by up to 3 of 32767 between the places of its table, 80 dB below the highest line: a hundredth of a bin that is 40 dB below,
    // 0.09 dB. That is 8/256 log2; a quarter of it enters the track, whose step is 8/256.
    [Test]
    public void Powers_Of40Decibels_AreTrueToATenthOfADecibelRms()
    {
        (int[] light, int[][] codes, _) = Artefacts.Crossing(0.33, 120);
        (int[] left, int[] taken) = SpectrumCosts.Cancelled(light, codes, 100, 50);
        StageCost cost = SpectrumPartCosts.Powers(left, taken);
        Assert.That(cost.ErrorSd, Is.LessThan(0.1));
    }

    // Arrears are whole, in steps of 8/256 log2: each window rounds by √(1/12) of that, 2.3, and two paths that part for n windows differ by
    // √(2n) times as much, 23 after fifty. Rates that are even within that may change places.
    [Test]
    public void Track_SameEvidence_IsTheTwins()
    {
        (int windows, int otherBest, StageCost margin) = SpectrumPartCosts.Track(3);
        Assert.That(otherBest, Is.LessThan(windows / 100));
        Assert.That(margin.SignalRms, Is.GreaterThan(100));
        Assert.That(margin.ErrorSd, Is.LessThan(32));
    }

    [Test]
    public void Transform_RadixTwoTwin_IsThatOfThePackage()
    {
        var random = new Random(8);
        System.Numerics.Complex[] samples = [.. Enumerable.Range(0, FourierTwin.Length).Select(_ => new System.Numerics.Complex(random.NextDouble() - 0.5, random.NextDouble() - 0.5))];
        System.Numerics.Complex[] exact = FourierTwin.Exact(samples);
        double worst = exact.Zip(FourierTwin.Rounded(samples, 0, 0), (a, b) => System.Numerics.Complex.Abs(a - b)).Max();
        Assert.That(worst, Is.LessThan(1e-12));
    }

    // A rate is the centre of power of five bins: where both look at the same ones it is true to hundredths of a bpm. They look at others where the
    // track stands between two bins. Trust differs where the margin is within its rounding of the limit.
    [TestCase(0.33, 5020, 0.02)]
    [TestCase(0.33, 5024, 0.02)]
    [TestCase(1, 5023, 0.08)]
    public void Rate_CrossingTheCadence_IsThatOfTheTwin(double unexplained, int seed, double mostOther)
    {
        (int[] light, int[][] codes, Func<double, double> bpmAt) = Artefacts.Crossing(unexplained, 240, seed);
        (int[] left, int[] taken) = SpectrumCosts.Cancelled(light, codes, 100, 50);
        SpectrumCosts costs = SpectrumCosts.Of(left, taken, 100, bpmAt);
        Assert.That(costs.Windows, Is.GreaterThan(100));
        Assert.That(costs.RateBpm.ErrorSd, Is.LessThan(0.02));
        Assert.That(costs.RateBpm.ErrorMean, Is.EqualTo(0).Within(0.01));
        Assert.That(costs.OtherPeak, Is.LessThanOrEqualTo(0.05 * costs.Windows));
        Assert.That(costs.OtherTrust, Is.LessThanOrEqualTo(mostOther * costs.Windows));
        Assert.That(costs.OtherShown, Is.Zero);
        Assert.That(costs.FixedBpm, Is.EqualTo(costs.TwinBpm).Within(0.2));
    }

    // Coherence 0.9: eight bits of samples and sines and eighteen of the transform are as good as doubles; of ten, one is left above the growth.
    [Test]
    public void Spectrum_TransformBits_EighteenAreEnoughTenAreNot()
    {
        (int[] light, int[][] codes, Func<double, double> bpmAt) = Artefacts.Crossing(0.33, 240);
        (int[] left, int[] taken) = SpectrumCosts.Cancelled(light, codes, 100, 50);
        double RightPercent(SpectrumWords words)
        {
            SpectrumWindow[] windows =
                [.. PulseSpectrumTwin.Run([.. left.Select(v => (double)v)], [.. taken.Select(v => (double)v)], 100, words).Where(w => w.Sample > 2000)];
            return 100.0 * windows.Count(w => w.IsTrusted && Math.Abs(w.Bpm - bpmAt(((w.Sample + 1.0) / 100) - 4)) < 5) / windows.Length;
        }

        double exact = RightPercent(default);
        Assert.That(exact, Is.GreaterThan(85));
        Assert.That(RightPercent(new SpectrumWords { SampleBits = 8, SineBits = 8, SumBits = 18 }), Is.EqualTo(exact).Within(3));
        Assert.That(RightPercent(new SpectrumWords { SumBits = 10 }), Is.LessThan(exact - 30));
    }
}
