// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pressure;

/// <summary>Arterial pressure at one moment.</summary>
/// <param name="DiastolicMmhg">Diastolic pressure [mmHg].</param>
/// <param name="SystolicMmhg">Systolic pressure [mmHg].</param>
public readonly record struct PressureState(double DiastolicMmhg, double SystolicMmhg)
{
    /// <summary>Mean pressure [mmHg]: diastolic plus a third of the pulse pressure (textbook rule, from memory).</summary>
    public double MeanMmhg => DiastolicMmhg + ((SystolicMmhg - DiastolicMmhg) / 3);

    /// <summary>The pressure of a beat that ejects another share of the usual stroke: the pulse pressure goes with it.</summary>
    /// <param name="share">Share of the usual stroke, at least 0; 0 leaves no systole above the diastolic pressure.</param>
    public PressureState WithStroke(double share) => this with { SystolicMmhg = DiastolicMmhg + (share * (SystolicMmhg - DiastolicMmhg)) };
}
