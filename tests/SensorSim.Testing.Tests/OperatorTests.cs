// SPDX-License-Identifier: MIT
using NUnit.Framework.Constraints;
using SensorSim.Scoring;
using SensorSim.Testing.Tests.Support;

namespace SensorSim.Testing.Tests;

/// <summary>Opposites and joined constraints: who meets them, and what they say.</summary>
[TestFixture]
public sealed class OperatorTests
{
    private GivenScenario _rest = null!;
    private TimedMark[] _perfect = null!;

    [OneTimeSetUp]
    public void Make()
    {
        _rest = Given.Scenario("waveforms/scenarios/rest-finger.toml");
        _perfect = TruthAnswers.Marks(TruthAnswers.Scored(_rest, out long delayNs), delayNs);
    }

    [Test]
    public void Opposite_ThatIsNotMet_TellsFiguresAndTheWayToSeeThem()
    {
        string message = Messages.OfFailure(_perfect, !Finds.RPeaks.Sensitivity.AtLeast(0.9).On(_rest));
        string[] lines = message.Split('\n');
        Assert.That(lines[0], Is.EqualTo("  Expected: not ecg r_peak with sensitivity at least 90 %, on waveforms/scenarios/rest-finger.toml, seed 1"));
        Assert.That(lines[1], Does.StartWith("  But was:  sensitivity 100 % (95 % interval ").And.Contain("56 of 56 found, 0 missed"));
        Assert.That(message, Does.Contain("  Tested:   answers on ").And.Contain("  By hand:  sensorsim run "));
        Assert.That(message, Does.Contain("FOLDER/truth.csv ANSWERS --acquisition FOLDER/acquisition.csv (ANSWERS: a detections.csv with the answers of the test)"));
        Assert.That(_perfect, !!Finds.RPeaks.On(_rest), "the opposite of the opposite");
    }

    [Test]
    public void BrokenDetector_MeetsNeitherAConstraintNorItsOpposite()
    {
        using UnderTest breaking = UnderTest.Class<BreakingDetector>();
        ScoredRuns runs = _rest.Run(breaking);
        Assert.That(Messages.OfFailure(runs, Finds.RPeaks), Does.Contain("crashed with seed 1"));
        Assert.That(Messages.OfFailure(runs, !Finds.RPeaks), Does.Contain("Expected: not ecg r_peak").And.Contain("crashed with seed 1"));
        Assert.That(Messages.OfFailure(runs, !!Finds.RPeaks), Does.Contain("crashed with seed 1"));
        Assert.That(Messages.OfFailure(runs, !(Finds.RPeaks & Reads.HeartRate)), Does.Contain("crashed with seed 1"));
        Assert.That(Messages.OfFailure(runs, !(Finds.RPeaks | Reads.HeartRate)), Does.Contain("crashed with seed 1"));
        Assert.That(Messages.OfFailure(breaking, !Keeps.TheContract.On(_rest)), Does.Contain("it threw InvalidOperationException"));
    }

    [Test]
    public void SilentDetector_MeetsTheOpposite() => Assert.That(UnderTest.Class<MuteDetector>(), !Finds.RPeaks.On(_rest));

    [Test]
    public void EitherOr_NeitherMet_TellsBoth()
    {
        DetectorConstraint either = Finds.RPeaks.LatencyP95Ms.AtMost(1).On(_rest) | Finds.PulseFeet.On(_rest);
        TimedMark[] late = [.. _perfect.Select(m => m with { EmittedTimeNs = m.TimeNs + 800_000_000 })];
        string message = Messages.OfFailure(late, either);
        Assert.That(message, Does.Contain("ecg r_peak with 95 % of latencies at most 1 ms, on ").And.Contain(" or infrared pulse_foot_tangent with "));
        Assert.That(message.Split('\n')[1], Does.StartWith("  But was:  95 % of latencies ").And.Contain("; sensitivity 0 % ").And.Contain("0 of "));
        Assert.That(message, Does.Contain("  Missed:   seed 1: first at "));
    }

    [Test]
    public void Both_SecondNotMet_TellsTheSecondOnly()
    {
        DetectorConstraint both = Finds.RPeaks.On(_rest) & Finds.PulseFeet.On(_rest);
        string message = Messages.OfFailure(_perfect, both);
        Assert.That(message.Split('\n')[1], Does.StartWith("  But was:  sensitivity 0 % "));
        Assert.That(Messages.OfFailure(_perfect, !(Finds.RPeaks.On(_rest) | Finds.PulseFeet.On(_rest))), Does.Contain("But was:  sensitivity 100 % ").And.Not.Contain("sensitivity 0 %"));
    }

    [TestCase(true, true)]
    [TestCase(true, false)]
    [TestCase(false, true)]
    [TestCase(false, false)]
    public void Joined_IsAsLogicSays(bool isLeft, bool isRight)
    {
        using UnderTest answers = UnderTest.Answers(_perfect);
        ScoredRuns runs = _rest.Run(answers);
        DetectorConstraint left = isLeft ? Finds.RPeaks : !Finds.RPeaks;
        DetectorConstraint right = isRight ? Finds.RPeaks : !Finds.RPeaks;
        Assert.That((left & right).ApplyTo(runs).IsSuccess, Is.EqualTo(isLeft && isRight));
        Assert.That((left | right).ApplyTo(runs).IsSuccess, Is.EqualTo(isLeft || isRight));
        Assert.That((!(left & right)).ApplyTo(runs).IsSuccess, Is.EqualTo(!(isLeft && isRight)));
        Assert.That((!(left | right)).ApplyTo(runs).IsSuccess, Is.EqualTo(!(isLeft || isRight)));
    }

    [Test]
    public void Joined_GoesWithNUnitsOwn()
    {
        Assert.That(_perfect, Finds.RPeaks.On(_rest) & Has.Length.EqualTo(56));
        Assert.That(_perfect, Has.Length.EqualTo(56) & Finds.RPeaks.On(_rest));
        Assert.That(Messages.OfFailure(_perfect, Finds.RPeaks.On(_rest) & Has.Length.GreaterThan(1).And.Length.LessThan(5)), Does.Contain("property Length less than 5"));
    }
}
