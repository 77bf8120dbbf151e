// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>The true landmarks of one pulse, in body time [s].</summary>
/// <param name="FootMinimumSeconds">Minimum before the upstroke.</param>
/// <param name="FootTangentSeconds">Where the tangent at the steepest point meets the horizontal through that minimum.</param>
/// <param name="FootSecondDerivativeSeconds">Largest second derivative before the steepest point.</param>
/// <param name="SteepestSeconds">Steepest point of the upstroke.</param>
/// <param name="SystolicPeakSeconds">Maximum.</param>
/// <param name="HeightUnits">Maximum less minimum [pulse units].</param>
/// <param name="HasFoot">
/// Whether the pulse has these landmarks, in this order; not so when it rides on the upstroke of an earlier pulse. The times then mean
/// nothing, and truth says <c>no_pulse</c>.
/// </param>
public readonly record struct PulseLandmarks(
    double FootMinimumSeconds,
    double FootTangentSeconds,
    double FootSecondDerivativeSeconds,
    double SteepestSeconds,
    double SystolicPeakSeconds,
    double HeightUnits,
    bool HasFoot);
