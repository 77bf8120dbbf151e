// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Readings;

/// <summary>How far a reading may be off before it counts as wrong.</summary>
public static class ReadingGate
{
    /// <summary>
    /// Largest error that is still right, in the kind's unit: 5 bpm or 10 % of the true rate, whichever is larger (the rule of
    /// the heart-rate meter standards, from memory), and 10 ms of arrival time (this project's choice).
    /// </summary>
    /// <param name="kind">Heart rate or arrival time.</param>
    /// <param name="truth">True value in the kind's unit.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no rule for the kind.</exception>
    public static double LargestGoodError(MarkKind kind, double truth) => kind switch
    {
        MarkKind.HeartRateBpm => Math.Max(5, 0.1 * truth),
        MarkKind.ArrivalTimeMs => 10,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is a rule for heart_rate_bpm and arrival_time_ms only."),
    };
}
