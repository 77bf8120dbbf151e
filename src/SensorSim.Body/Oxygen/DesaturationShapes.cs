// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;

namespace SensorSim.Body.Oxygen;

/// <summary>Ready-made courses of <c>oxygen.saturation_percent</c>.</summary>
public static class DesaturationShapes
{
    /// <summary>A breath held: after a lag saturation falls in a straight line to the nadir, and some lag after breathing again it recovers.</summary>
    /// <param name="beginSeconds">When the breath stops [s].</param>
    /// <param name="holdSeconds">How long [s], above 0.</param>
    /// <param name="lagSeconds">
    /// Lag of the blood at the sensor at both ends [s], at least 0: stores and circulation from lung to finger, 20 to 30 s (from memory).
    /// </param>
    /// <param name="baselinePercent">Saturation before and after [%].</param>
    /// <param name="fallPointsPerMin">Speed of the fall [points/min], above 0.</param>
    /// <param name="nadirPercent">Lowest saturation [%], below the baseline; a short hold does not reach it.</param>
    /// <param name="recoverySeconds">Time constant of the recovery [s], above 0.</param>
    /// <returns>Changes for the course of the knob, in order of time.</returns>
    public static IReadOnlyList<CourseChange> BreathHold(
        double beginSeconds,
        double holdSeconds,
        double lagSeconds,
        double baselinePercent,
        double fallPointsPerMin,
        double nadirPercent,
        double recoverySeconds)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(holdSeconds);
        ArgumentOutOfRangeException.ThrowIfNegative(lagSeconds);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fallPointsPerMin);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(nadirPercent, baselinePercent);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(recoverySeconds);
        double fallSeconds = (baselinePercent - nadirPercent) / fallPointsPerMin * 60;
        return
        [
            new CourseChange(beginSeconds + lagSeconds, ChangeKind.Ramp, nadirPercent, fallSeconds),
            new CourseChange(beginSeconds + lagSeconds + holdSeconds, ChangeKind.Settle, baselinePercent, recoverySeconds),
        ];
    }
}
