// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>The start of a pulse and the landmarks of its upstroke.</summary>
internal struct PulseFoot
{
    /// <summary>Where the pulse starts [s].</summary>
    public double StartSeconds;

    /// <summary>Foot by tangents [s].</summary>
    public double TangentSeconds;

    /// <summary>Minimum before the upstroke, after the start [s]; below 0 where it is the notch of the pulse before.</summary>
    public double Minimum;

    /// <summary>Steepest point, after the start [s].</summary>
    public double Steepest;

    /// <summary>Value at the minimum [pulse units].</summary>
    public double Value;

    /// <summary>Second derivative of the earlier pulses at the minimum [1/s²].</summary>
    public double EarlierCurvature;

    /// <summary>Minimum before tangents before steepest point.</summary>
    public readonly bool IsInOrder => Minimum < TangentSeconds - StartSeconds && TangentSeconds - StartSeconds < Steepest;
}
