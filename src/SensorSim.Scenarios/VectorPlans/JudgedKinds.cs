// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>The kinds of answer that a requirement can judge, by what truth knows of them.</summary>
public static class JudgedKinds
{
    /// <summary>Events of which truth says when each one is.</summary>
    public static IReadOnlyList<MarkKind> Events { get; } =
    [
        MarkKind.RPeak, MarkKind.PulseFootMinimum, MarkKind.PulseFootTangent, MarkKind.PulseFootSecondDerivative, MarkKind.SteepestPoint, MarkKind.SystolicPeak,
    ];

    /// <summary>Readings of which truth says the value over any stretch.</summary>
    public static IReadOnlyList<MarkKind> Readings { get; } =
    [
        MarkKind.HeartRateBpm, MarkKind.HeartRateFusedBpm, MarkKind.ArrivalTimeMs, MarkKind.ArrivalSpotMs, MarkKind.Spo2Percent,
        MarkKind.PerfusionIndexPercent, MarkKind.SystolicMmhg, MarkKind.DiastolicMmhg, MarkKind.MeanMmhg, MarkKind.RrMeanMs,
    ];
}
