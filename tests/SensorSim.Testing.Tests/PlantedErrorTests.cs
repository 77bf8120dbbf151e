// SPDX-License-Identifier: MIT
using NUnit.Framework.Constraints;
using SensorSim.Scoring;
using SensorSim.Testing.Tests.Support;

namespace SensorSim.Testing.Tests;

/// <summary>Answers with a known number of known faults: figures, verdicts and messages follow from counting.</summary>
[TestFixture]
public sealed class PlantedErrorTests
{
    // docs/examples/c-detector says 56 scored beats in this scenario.
    private const int Beats = 56;
    private const int Dropped = 3;
    private const int Added = 2;
    private const double ShiftMs = 7;
    private const double Sensitivity = (double)(Beats - Dropped) / Beats;
    private const double Predictivity = (double)(Beats - Dropped) / (Beats - Dropped + Added);

    private GivenScenario _rest = null!;
    private TimedMark[] _answers = null!;
    private long[] _beats = null!;

    [OneTimeSetUp]
    public void Plant()
    {
        _rest = Given.Scenario("waveforms/scenarios/rest-finger.toml");
        _beats = TruthAnswers.Scored(_rest, out long delayNs);
        Assert.That(_beats, Has.Length.EqualTo(Beats));
        int[] dropped = [10, 11, 40];
        var times = _beats.Where((_, i) => !dropped.Contains(i)).Select(t => t + (long)(ShiftMs * 1e6)).ToList();

        // Between two beats, more than 150 ms from either: RR is some 900 ms at 66 bpm.
        times.AddRange([(_beats[20] + _beats[21]) / 2, (_beats[30] + _beats[31]) / 2]);
        _answers = TruthAnswers.Marks(times, delayNs);
    }

    [Test]
    public void Sensitivity_AtWhatWasCounted_IsMetAndJustAboveNot()
    {
        Assert.That(_answers, Finds.RPeaks.Sensitivity.AtLeast(Sensitivity - 1e-9).On(_rest));
        Assert.That(_answers, !Finds.RPeaks.Sensitivity.AtLeast(Sensitivity + 1e-9).On(_rest));
    }

    [Test]
    public void PositivePredictivity_AtWhatWasCounted_IsMetAndJustAboveNot()
    {
        Assert.That(_answers, Finds.RPeaks.PositivePredictivity.AtLeast(Predictivity - 1e-9).On(_rest));
        Assert.That(_answers, !Finds.RPeaks.PositivePredictivity.AtLeast(Predictivity + 1e-9).On(_rest));
    }

    [Test]
    public void TimingBias_OfShiftedAnswers_IsTheShift()
    {
        Assert.That(_answers, Finds.RPeaks.TimingBiasMs.AtMost(ShiftMs + 0.001).TimingSpreadMs.AtMost(0.001).TimingP95Ms.AtMost(ShiftMs + 0.1).On(_rest));
        Assert.That(_answers, !Finds.RPeaks.TimingBiasMs.AtMost(ShiftMs - 0.001).On(_rest));
        Assert.That(_answers, !Finds.RPeaks.TimingP95Ms.AtMost(ShiftMs - 0.1).On(_rest));
    }

    [Test]
    public void LatencyP95_OfAnswersGivenAtOnce_IsTheShift()
    {
        // Bins of 10 ms (docs/scoring.md).
        Assert.That(_answers, Finds.RPeaks.LatencyP95Ms.AtMost(10).On(_rest));
        TimedMark[] late = [.. _answers.Select(a => a with { EmittedTimeNs = a.TimeNs + 500_000_000 })];
        Assert.That(late, !Finds.RPeaks.LatencyP95Ms.AtMost(490).On(_rest));
        Assert.That(late, Finds.RPeaks.LatencyP95Ms.AtMost(510).On(_rest));
    }

    [Test]
    public void SeveralLimits_OneNotKept_IsNotMet()
    {
        EventConstraint both = Finds.RPeaks.Sensitivity.AtLeast(0.9).PositivePredictivity.AtLeast(0.99).On(_rest);
        string message = Messages.OfFailure(_answers, both);
        Assert.That(message, Does.Contain("sensitivity at least 90 %, positive predictivity at least 99 %"));
    }

    [Test]
    public void NoLimit_AsksForEveryBeatAndNothingElse()
    {
        Assert.That(_answers, !Finds.RPeaks.On(_rest));
        TimedMark[] perfect = TruthAnswers.Marks(_beats, DelayNs());
        Assert.That(perfect, Finds.RPeaks.On(_rest));
        Assert.That(perfect[1..^1].Where((_, i) => i != 25), !Finds.RPeaks.On(_rest), "one missing");
        Assert.That(perfect.Append(perfect[^1] with { TimeNs = perfect[^1].TimeNs + 300_000_000, EmittedTimeNs = perfect[^1].TimeNs + 300_000_000 }), !Finds.RPeaks.On(_rest), "one too many");
    }

    [Test]
    public void Message_SaysWhatWasAskedMeasuredAndWhere()
    {
        string message = Messages.OfFailure(_answers, Finds.RPeaks.Sensitivity.AtLeast(0.995).PositivePredictivity.AtLeast(0.99).On(_rest));

        string[] lines = message.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.That(lines[0], Is.EqualTo(
            "  Expected: ecg r_peak with sensitivity at least 99.5 %, positive predictivity at least 99 %, on waveforms/scenarios/rest-finger.toml, seed 1"));
        Assert.That(lines[1], Does.StartWith("  But was:  sensitivity 94.6429 % (95 % interval ").And.Contain("53 of 56 found, 3 missed"));
        Assert.That(lines[1], Does.Contain("positive predictivity 96.3636 %").And.Contain("2 extra beside 53 found"));
        Assert.That(message, Does.Contain(FormattableString.Invariant($"  Missed:   seed 1: first at {_beats[10] / 1e9:0.000} s, at {_beats[11] / 1e9:0.000} s, at {_beats[40] / 1e9:0.000} s")));
        Assert.That(message, Does.Contain(FormattableString.Invariant($"  Extra:    seed 1: first at {(_beats[20] + _beats[21]) / 2e9:0.000} s")));
        Assert.That(message, Does.Contain("  By hand:  sensorsim run ").And.Contain("rest-finger.toml --seed 1 --out FOLDER, then sensorsim score FOLDER/truth.csv"));
    }

    [Test]
    public void Constraint_InAssert_ThrowsItsMessage()
    {
        using var apart = new NUnit.Framework.Internal.TestExecutionContext.IsolatedContext();
        AssertionException thrown = Assert.Throws<AssertionException>(() => Assert.That(_answers, Finds.RPeaks.On(_rest), "own words"))!;
        Assert.That(thrown.Message, Does.Contain("own words").And.Contain("53 of 56 found").And.Contain("By hand:"));
    }

    // Newcombe 1998 (Stat Med 17:857), table I, method 3, of 15 in 148: 0.0624 to 0.1605.
    [Test]
    public void Certainly_AsksTheWholeWilsonInterval()
    {
        GivenScenario given = _rest.Lasting(151);
        long[] beats = TruthAnswers.Scored(given, out long delayNs);
        Assert.That(beats.Length, Is.GreaterThanOrEqualTo(148));
        int left = beats.Length - 148;
        TestContext.Out.WriteLine($"{beats.Length} beats");
        Assert.That(left, Is.Zero, "the length must give 148 scored beats");
        TimedMark[] few = TruthAnswers.Marks(beats[..15], delayNs);

        Assert.That(few, Finds.RPeaks.Sensitivity.CertainlyAtLeast(0.0623).On(given));
        Assert.That(few, !Finds.RPeaks.Sensitivity.CertainlyAtLeast(0.0625).On(given));
        double[] interval = Messages.Numbers(Messages.OfFailure(few, Finds.RPeaks.Sensitivity.AtLeast(0.5).On(given)), @"interval ([0-9.]+) to ([0-9.]+) %");
        Assert.That(interval, Is.EqualTo(new[] { 6.24, 16.05 }).Within(0.005));
    }

    // Wilson 1927, x = n: the lower end is n / (n + z^2), z = 1.96: of 56 in 56 it is 0.9358.
    [Test]
    public void Certainly_WithEverySeed_AsksTheIntervalOfEach()
    {
        TimedMark[] perfect = TruthAnswers.Marks(_beats, DelayNs());
        Assert.That(perfect, Finds.RPeaks.WithEverySeed.Sensitivity.CertainlyAtLeast(0.935).On(_rest));
        string message = Messages.OfFailure(perfect, Finds.RPeaks.WithEverySeed.Sensitivity.CertainlyAtLeast(0.937).On(_rest));
        Assert.That(message, Does.Contain("every seed sensitivity certainly at least 93.7 %"));

        // Three seeds of 56 beats or so show 0.97 when pooled (n / (n + z^2) of 150 is 0.975), and none does alone.
        GivenScenario three = _rest.SeedsFrom(1, 3);
        using UnderTest example = UnderTest.Class<SensorSim.Examples.Threshold.ThresholdDetector>();
        ScoredRuns runs = three.Run(example);
        Assert.That(runs, Finds.RPeaks.Sensitivity.CertainlyAtLeast(0.97));
        message = Messages.OfFailure(runs, Finds.RPeaks.WithEverySeed.Sensitivity.CertainlyAtLeast(0.97));
        Assert.That(message, Does.Match(@"Seeds:    worst first: \d \(100 %, 95 % interval 93\.\d+ to 100 %\)"));
    }

    // One answer that was given long after the end must not hide those behind it; the file is then out of order, which is said.
    [Test]
    public void Answer_GivenAfterTheEnd_HidesNone()
    {
        TimedMark[] perfect = TruthAnswers.Marks(_beats, DelayNs());
        TimedMark[] held = [.. perfect[..^4], perfect[^4] with { EmittedTimeNs = 3_600_000_000_000 }, .. perfect[^3..]];
        Assert.That(held, Finds.RPeaks.On(_rest));
        TimedMark[] early = [perfect[0] with { EmittedTimeNs = 3_600_000_000_000 }, .. perfect[1..]];
        Assert.That(() => Finds.RPeaks.On(_rest).ApplyTo(early), Throws.ArgumentException.With.Message.Contains("sort them by emitted_time_ns"));
    }

    [Test]
    public void AndOrNot_OfNUnit_Compose()
    {
        EventConstraint kept = Finds.RPeaks.Sensitivity.AtLeast(0.9).On(_rest);
        EventConstraint broken = Finds.RPeaks.TimingBiasMs.AtMost(1).On(_rest);
        Assert.That(_answers, kept & !broken);
        Assert.That(_answers, broken | kept);
        Assert.That(_answers, kept.And.Not.Matches(broken));
        Assert.That(_answers, Has.Length.EqualTo(Beats - Dropped + Added).And.Matches(kept));
        Assert.That((kept & broken).ApplyTo(_answers).IsSuccess, Is.False);
        Assert.That(Messages.OfFailure(_answers, kept & broken), Does.Contain("timing bias 7 ms").And.Contain("By hand:"));
    }

    [Test]
    public void ScoredRuns_ServeManyConstraints()
    {
        using UnderTest answers = UnderTest.Answers(_answers);
        ScoredRuns runs = _rest.Run(answers);
        Assert.That(runs, Finds.RPeaks.Sensitivity.AtLeast(0.9));
        Assert.That(runs, !Finds.RPeaks.Sensitivity.AtLeast(0.99));
        Assert.That(runs.Runs.Single().Outcome.MarkCount, Is.EqualTo(_answers.Length));
        Assert.That(() => Finds.RPeaks.On(_rest).ApplyTo(runs), Throws.ArgumentException.With.Message.Contains("leave out On"));
    }

    private long DelayNs()
    {
        TruthAnswers.Scored(_rest, out long delayNs);
        return delayNs;
    }
}
