// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pulses;

/// <summary>One pulse found in the received light. Places are in samples of the optical channel.</summary>
/// <param name="Foot">Where the tangent at the steepest point meets the horizontal through the minimum before it.</param>
/// <param name="Steepest">Where the upstroke is steepest.</param>
/// <param name="SystolicPeak">Where the vessel is fullest: the received light is lowest.</param>
/// <param name="AmplitudeCodes">Fall of the light from the minimum of the pulse to its peak [codes], above 0.</param>
/// <param name="Quality">Trust, 0 to 255, by how steep the pulse is among its forerunners.</param>
/// <param name="FoundAt">Index of the sample whose arrival led to the decision.</param>
/// <param name="SecondDerivativeFoot">Where the second derivative is largest before the steepest point; default when it was not found.</param>
/// <param name="LevelCodes">Received light at the minimum of the pulse, counted from the code of no light [codes].</param>
/// <param name="StartsRun">Whether no pulse came before it without a gap between; then there is no interval to it.</param>
public readonly record struct PulseEvent(
    SamplePosition Foot,
    SamplePosition Steepest,
    SamplePosition SystolicPeak,
    int AmplitudeCodes,
    byte Quality,
    long FoundAt,
    SamplePosition SecondDerivativeFoot = default,
    int LevelCodes = 0,
    bool StartsRun = false);
