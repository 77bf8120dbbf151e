// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Body.Pulse;

/// <summary>Value and derivatives, summed lane by lane.</summary>
internal struct PulseLaneSums
{
    public Vector256<double> Value;
    public Vector256<double> Slope;
    public Vector256<double> Curvature;
    public Vector256<double> Jerk;
    public Vector256<double> JerkSlope;

    /// <summary>The sums over the lanes; those beyond the wanted derivative are 0.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Total(int derivatives, out PulsePoint point)
    {
        point = default;
        point.Value = Across(Value);
        point.Slope = Across(Slope);
        point.Curvature = Across(Curvature);
        point.Jerk = derivatives > 2 ? Across(Jerk) : 0;
        point.JerkSlope = derivatives > 3 ? Across(JerkSlope) : 0;
    }

    // (0 + 2) + (1 + 3): one order for every machine.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Across(Vector256<double> lanes)
    {
        Vector128<double> pairs = lanes.GetLower() + lanes.GetUpper();
        return pairs.GetElement(0) + pairs.GetElement(1);
    }
}
