// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Ecg;

/// <summary>A true R peak.</summary>
/// <param name="Seconds">Body time [s].</param>
/// <param name="Millivolts">Clean voltage there [mV].</param>
/// <param name="IsAmbiguous">Whether the runner-up of opposite sign exceeds 80 % of it.</param>
public readonly record struct RPeak(double Seconds, double Millivolts, bool IsAmbiguous);
