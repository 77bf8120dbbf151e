// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>The start of a pulse and its landmarks as times after it.</summary>
internal struct PulseFoot
{
    /// <summary>Where the pulse starts [s].</summary>
    public double StartSeconds;

    /// <summary>Foot by tangents, in body time [s].</summary>
    public double TangentSeconds;

    /// <summary>Minimum before the upstroke, after the start [s]; below 0 where it is the notch of the pulse before.</summary>
    public double Minimum;

    /// <summary>Largest second derivative, after the start [s].</summary>
    public double Curved;

    /// <summary>Steepest point, after the start [s].</summary>
    public double Steepest;

    /// <summary>Systolic peak, after the start [s].</summary>
    public double Peak;

    /// <summary>Dicrotic notch, after the start [s], or NaN.</summary>
    public double Notch;

    /// <summary>Diastolic peak, after the start [s], or NaN.</summary>
    public double Diastolic;

    /// <summary>Value at the minimum [pulse units].</summary>
    public double Low;

    /// <summary>Value at the systolic peak [pulse units].</summary>
    public double High;

    /// <summary>Minimum before tangents before steepest point.</summary>
    public readonly bool IsInOrder => Minimum < TangentSeconds - StartSeconds && TangentSeconds - StartSeconds < Steepest;
}
