// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.WorstCases;

/// <summary>A run of a study that falls short of a requirement, made again to show where.</summary>
public sealed record WorstCase
{
    /// <summary>The requirement, on one channel.</summary>
    public required RequirementOnRow Requirement { get; init; }

    /// <summary>Whether all runs of its point together meet the requirement: then it is no failure, but the weakest run of a point that holds.</summary>
    public bool IsPointMet { get; init; }

    /// <summary>Number of the run.</summary>
    public required long Run { get; init; }

    /// <summary>Point, seed, subject and detector of the run.</summary>
    public required RunKey Key { get; init; }

    /// <summary>The run's own figure; null when it is undefined.</summary>
    public required double? Figure { get; init; }

    /// <summary>How the detector behaved.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>One sentence on the verdict; empty when the detector answered.</summary>
    public required string VerdictReason { get; init; }

    /// <summary>The moment that is shown, nominal device time of the requirement's channel [s].</summary>
    public required double MomentS { get; init; }

    /// <summary>One sentence: what happens at that moment.</summary>
    public required string What { get; init; }

    /// <summary>Samples, truth and marks from 5 s before the moment to 5 s after it, or less at the ends of the record.</summary>
    public required FirstSeconds Capture { get; init; }

    /// <summary>Scored events of the requirement's channel and kind in that stretch that pair with nothing; times in body time.</summary>
    public required IReadOnlyList<JudgedEvent> Unpaired { get; init; }
}
