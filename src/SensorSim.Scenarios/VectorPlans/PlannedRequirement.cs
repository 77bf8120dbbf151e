// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>A requirement of a vector plan: what a detector's answers must do, and where that is written.</summary>
/// <remarks>A limit that is null is not asked for. Which limits a rule has: see <see cref="PlanRequirementKeys"/>.</remarks>
public sealed record PlannedRequirement
{
    /// <summary>Own short name, unique in the plan: letters, digits, hyphens, dots, underscores.</summary>
    public required string Id { get; init; }

    /// <summary>The requirement in one sentence.</summary>
    public required string Text { get; init; }

    /// <summary>Standard and clause it comes from, or <c>own</c>.</summary>
    public required string Clause { get; init; }

    /// <summary>Channel whose answers count; null: any.</summary>
    public ChannelName? Channel { get; init; }

    /// <summary>Kind of answer.</summary>
    public required MarkKind Kind { get; init; }

    /// <summary>What is asked.</summary>
    public required RequirementRule Rule { get; init; }

    /// <summary>Marks, prompt: greatest distance of a mark from its event [ms].</summary>
    public double WindowMs { get; init; } = PlanRequirementKeys.WindowMs.Default;

    /// <summary>Marks: least share of the events that are marked [0 to 1].</summary>
    public double? SensitivityMin { get; init; }

    /// <summary>Marks: least share of the marks that belong to an event [0 to 1].</summary>
    public double? PositivePredictivityMin { get; init; }

    /// <summary>Readings: greatest error [unit of the kind].</summary>
    public double? ErrorMax { get; init; }

    /// <summary>Readings: greatest error [% of truth]; with <see cref="ErrorMax"/> the larger of both counts.</summary>
    public double? ErrorPercentMax { get; init; }

    /// <summary>Readings: least share of the usable seconds with a reading. Prompt: least share of the events told in time [0 to 1].</summary>
    public double? ShareMin { get; init; }

    /// <summary>Readings: latest time of the first one, from the start of the case [s].</summary>
    public double? FirstWithinS { get; init; }

    /// <summary>Readings: least value by the design of the cases, in place of truth [unit of the kind]; stands with <see cref="High"/>.</summary>
    public double? Low { get; init; }

    /// <summary>Readings: greatest value by the design of the cases, in place of truth [unit of the kind].</summary>
    public double? High { get; init; }

    /// <summary>Readings: fewest beats that a device may average over; null: as many as is usual for the kind.</summary>
    public int? BeatsMin { get; init; }

    /// <summary>Readings: most beats that a device may average over; null: as many as is usual for the kind.</summary>
    public int? BeatsMax { get; init; }

    /// <summary>Readings: how long a reading stands, for <see cref="ShareMin"/> [s].</summary>
    public double StandsS { get; init; } = PlanRequirementKeys.StandsS.Default;

    /// <summary>Shown: value that the mark must have, for example the reason of a gate; null: any.</summary>
    public double? Value { get; init; }

    /// <summary>Part of the case that is looked at: its begin [s]; null: the start. Shown: where the stretch begins.</summary>
    public double? FromS { get; init; }

    /// <summary>Part of the case that is looked at: its end, not included [s]; null: the end.</summary>
    public double? UntilS { get; init; }

    /// <summary>Withheld: time that a detector has after the stretch begins [s].</summary>
    public double GraceS { get; init; }

    /// <summary>Shown: latest time after the stretch begins [s].</summary>
    public double? WithinS { get; init; }

    /// <summary>Prompt: greatest time from the event to its mark's emission [ms].</summary>
    public double? LatencyMsMax { get; init; }
}
