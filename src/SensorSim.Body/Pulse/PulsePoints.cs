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
