// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pressure;

/// <summary>Arterial pressure at one moment.</summary>
/// <param name="DiastolicMmhg">Diastolic pressure [mmHg].</param>
/// <param name="SystolicMmhg">Systolic pressure [mmHg].</param>
public readonly record struct PressureState(double DiastolicMmhg, double SystolicMmhg)
{
    /// <summary>Mean pressure [mmHg]: diastolic plus a third of the pulse pressure (textbook rule, from memory).</summary>
    public double MeanMmhg => DiastolicMmhg + ((SystolicMmhg - DiastolicMmhg) / 3);
}
