// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.StudyFiles;

namespace SensorSim.Studies.Plans;

/// <summary>
/// A study: one scenario, what is varied, seeds, subjects, detectors, requirements. Every detector meets the same streams, and every point the
/// same seeds (common random numbers), so differences are those of what was varied.
/// </summary>
/// <remarks>
/// Run r = ((point × seeds + seed) × subjects + subject) × detectors + detector, all counted from 0.
/// </remarks>
public sealed record StudyPlan
{
    /// <summary>Title.</summary>
    public required string Title { get; init; }

    /// <summary>The file it was read from, as the user named it.</summary>
    public required string File { get; init; }

    /// <summary>The text of that file.</summary>
    public required string Text { get; init; }

    /// <summary>The scenario that every run begins with; values that hold for the whole study are set in it.</summary>
    public required Scenario Scenario { get; init; }

    /// <summary>What is varied.</summary>
    public required IReadOnlyList<Factor> Factors { get; init; }

    /// <summary>The combinations of values, at least one.</summary>
    public required IReadOnlyList<StudyPoint> Points { get; init; }

    /// <summary>Seeds, at least one, all different.</summary>
    public required IReadOnlyList<ulong> Seeds { get; init; }

    /// <summary>Seeds of the persons, all different; empty: the scenario's own person, or nobody.</summary>
    public IReadOnlyList<ulong> SubjectSeeds { get; init; } = [];

    /// <summary>Detectors, at least one, each with a label of its own.</summary>
    public required IReadOnlyList<DetectorChoice> Detectors { get; init; }

    /// <summary>Requirements with their limits.</summary>
    public required IReadOnlyList<(RequirementDefinition Definition, double Limit)> Requirements { get; init; }

    /// <summary>How failure points are defined and found.</summary>
    public FailurePointSettings FailurePoint { get; init; } = new();

    /// <summary>On what constants of the detectors are chosen before the study is run; null: they are not, and each of their values is a point.</summary>
    public TuningSettings? Tuning { get; init; }

    /// <summary>What it was read from, for places of mistakes; null when nobody wrote it.</summary>
    internal StudyFile? Source { get; init; }

    /// <summary>Persons in the study; 1 when nobody is drawn.</summary>
    public int SubjectCount => Math.Max(1, SubjectSeeds.Count);

    /// <summary>Runs of the whole study.</summary>
    public long RunCount => (long)Points.Count * Seeds.Count * SubjectCount * Detectors.Count;

    /// <summary>The indices of a run.</summary>
    /// <param name="run">Number of the run, 0 to <see cref="RunCount"/> − 1.</param>
    public RunKey KeyOf(long run)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(run);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(run, RunCount);
        (long rest, long detector) = Math.DivRem(run, Detectors.Count);
        (rest, long subject) = Math.DivRem(rest, SubjectCount);
        (long point, long seed) = Math.DivRem(rest, Seeds.Count);
        return new RunKey((int)point, (int)seed, (int)subject, (int)detector);
    }

    /// <summary>The number of a run.</summary>
    /// <param name="key">Its indices.</param>
    public long NumberOf(RunKey key) =>
        (((((long)key.Point * Seeds.Count) + key.Seed) * SubjectCount) + key.Subject) * Detectors.Count + key.Detector;
}
