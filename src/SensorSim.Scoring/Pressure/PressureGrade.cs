// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Pressure;

/// <summary>A published grade of pressure errors, best first.</summary>
public enum PressureGrade
{
    /// <summary>Best.</summary>
    A,

    /// <summary>Second.</summary>
    B,

    /// <summary>Third.</summary>
    C,

    /// <summary>Worse than all others.</summary>
    D,
}
