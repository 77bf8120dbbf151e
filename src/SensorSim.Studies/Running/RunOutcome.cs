// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;

namespace SensorSim.Studies.Running;

/// <summary>What came out of a run.</summary>
/// <param name="Verdict">How the detector behaved.</param>
/// <param name="VerdictReason">One sentence when the verdict is not <see cref="Verdict.Answered"/>; else empty.</param>
/// <param name="DetectorName">Name and version of the detector.</param>
/// <param name="SampleCount">Samples consumed.</param>
/// <param name="MarkCount">Marks given.</param>
/// <param name="Report">Scores; null when nothing was scored.</param>
public sealed record RunOutcome(
    Verdict Verdict, string VerdictReason, string DetectorName, long SampleCount, long MarkCount, ScoreReport? Report)
{
    /// <summary>End of the block in which the verdict fell, nominal device time [s]; null when the detector answered, was silent or was late.</summary>
    public double? FailedAtS { get; init; }
}
