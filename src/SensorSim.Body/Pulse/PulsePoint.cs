// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>The arterial pulse at one instant, with its derivatives.</summary>
public struct PulsePoint
{
    /// <summary>Value [pulse units].</summary>
    public double Value;

    /// <summary>First derivative [1/s].</summary>
    public double Slope;

    /// <summary>Second derivative [1/s²].</summary>
    public double Curvature;

    /// <summary>Third derivative [1/s³].</summary>
    public double Jerk;

    /// <summary>Fourth derivative [1/s⁴].</summary>
    public double JerkSlope;
}
