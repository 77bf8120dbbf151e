// SPDX-License-Identifier: MIT
using SensorSim.Studies.Running;

namespace SensorSim.Testing;

/// <summary>A constraint on how a detector does on a scenario.</summary>
/// <remarks>
/// Hand it a detector (an <see cref="UnderTest"/>, an <see cref="SensorSim.Signals.Detectors.IDetector"/>, a factory, or a function that makes one), or answers; then it
/// needs <c>On</c>. Or hand it <see cref="ScoredRuns"/>, so that one run serves many constraints. It goes with <c>&amp;</c>, <c>|</c> and <c>!</c>, and with
/// the rest of NUnit.
/// </remarks>
public abstract class RunConstraint : DetectorConstraint
{
    private protected RunConstraint(GivenScenario? given) => GivenOwn = given;

    /// <summary>The scenario of <c>On</c>; null without one.</summary>
    private protected GivenScenario? GivenOwn { get; }

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(TActual actual) => Apply(RunsOf(actual));

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(Func<TActual> code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return Apply(Made(code));
    }

    /// <summary>Whether runs are as asked, with what a message says.</summary>
    private protected abstract Judgement Judge(ScoredRuns runs);

    /// <summary>What is asked, in words.</summary>
    private protected abstract string Asked { get; }

    /// <inheritdoc/>
    public override string Description => GivenOwn is null ? Asked : $"{Asked}, on {GivenOwn}";

    private RunResult Apply(ScoredRuns runs)
    {
        if (runs.Runs.FirstOrDefault(r => r.Outcome.Report!.ScoredEndNs <= r.Outcome.Report.ScoredBeginNs) is not null)
        {
            throw new ArgumentException(FormattableString.Invariant(
                $"{runs.Given.Label} lasts {runs.Given.Scenario.DurationS} s and nothing of it is scored: the first 8 s and the last one never are. Make it longer."));
        }

        Judgement judgement = runs.Runs.FirstOrDefault(r => r.Outcome.Verdict != Verdict.Answered) is ScoredRun failed
            ? Judgement.OfVerdict(runs, failed)
            : Judge(runs);
        return new RunResult(this, runs, judgement);
    }

    // A function is called once a run, so that every run has a detector of its own.
    private ScoredRuns Made<TActual>(Func<TActual> make)
    {
        if (!typeof(SensorSim.Signals.Detectors.IDetector).IsAssignableFrom(typeof(TActual)))
        {
            return RunsOf(make());
        }

        using UnderTest detector = UnderTest.Made(() => (SensorSim.Signals.Detectors.IDetector)make()!);
        return RunsOf(detector);
    }

    private ScoredRuns RunsOf(object? actual)
    {
        if (actual is ScoredRuns runs)
        {
            return GivenOwn is null ? runs : throw new ArgumentException($"The runs are on {runs.Given} already; leave out On.", nameof(actual));
        }

        UnderTest detector = UnderTest.Of(actual) ?? throw new ArgumentException(
            $"{actual?.GetType().Name ?? "null"} is nothing that can be tested here; give a detector (UnderTest, IDetector, IDetectorFactory or a function that makes one), answers (TimedMark), or ScoredRuns.",
            nameof(actual));
        return (GivenOwn ?? throw new ArgumentException("Say what the detector is to be tested on: add On(Given.Scenario(...)).", nameof(actual))).Run(detector);
    }
}
