// SPDX-License-Identifier: MIT
using SensorSim.Studies.Running;

namespace SensorSim.Testing;

/// <summary>What came of running a detector on a scenario, a run for each seed: hand it to any number of constraints.</summary>
public sealed class ScoredRuns
{
    internal ScoredRuns(GivenScenario given, UnderTest detector, IReadOnlyList<ScoredRun> runs)
    {
        Given = given;
        Detector = detector;
        Runs = runs;
    }

    /// <summary>What it was run on.</summary>
    public GivenScenario Given { get; }

    /// <summary>What was run.</summary>
    public UnderTest Detector { get; }

    /// <summary>The runs, in the order of the seeds.</summary>
    public IReadOnlyList<ScoredRun> Runs { get; }

    /// <inheritdoc/>
    public override string ToString() => $"{Detector} on {Given}";
}

/// <summary>One run.</summary>
public sealed record ScoredRun
{
    internal ScoredRun(ulong seed, RunOutcome outcome, NotableEvents notable)
    {
        Seed = seed;
        Outcome = outcome;
        Notable = notable;
    }

    /// <summary>Its seed.</summary>
    public ulong Seed { get; }

    /// <summary>What came out, scored.</summary>
    public RunOutcome Outcome { get; }

    /// <summary>The first things that went wrong in each row.</summary>
    internal NotableEvents Notable { get; }
}
