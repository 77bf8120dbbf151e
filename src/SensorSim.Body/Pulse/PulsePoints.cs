// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Body.Pulse;

/// <summary>The arterial pulse at four instants side by side, see <see cref="PulsePoint"/>.</summary>
internal struct PulsePoints
{
    public Vector256<double> Value;
    public Vector256<double> Slope;
    public Vector256<double> Curvature;
    public Vector256<double> Jerk;
    public Vector256<double> JerkSlope;

    /// <summary>The same a little later, by Taylor's polynomial.</summary>
    /// <param name="by">How much later each of the four [s].</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly PulsePoints Moved(Vector256<double> by)
    {
        Vector256<double> half = by * 0.5;
        Vector256<double> third = by * (1.0 / 3);
        return new PulsePoints
        {
            Value = Value + (by * (Slope + (half * (Curvature + (third * (Jerk + (by * 0.25 * JerkSlope))))))),
            Slope = Slope + (by * (Curvature + (half * (Jerk + (third * JerkSlope))))),
            Curvature = Curvature + (by * (Jerk + (half * JerkSlope))),
            Jerk = Jerk + (by * JerkSlope),
            JerkSlope = JerkSlope,
        };
    }

    /// <summary>One of the four.</summary>
    public readonly PulsePoint this[int lane]
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => new()
        {
            Value = Value[lane],
            Slope = Slope[lane],
            Curvature = Curvature[lane],
            Jerk = Jerk[lane],
            JerkSlope = JerkSlope[lane],
        };
    }
}
