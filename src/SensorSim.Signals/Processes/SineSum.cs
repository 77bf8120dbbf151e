// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>A sum of sines of equal size at one time, four at a time, summed one after the other: the same bits as one by one.</summary>
internal static class SineSum
{
    /// <summary>The sum.</summary>
    /// <param name="hz">Frequencies [Hz]; a multiple of four of them.</param>
    /// <param name="startTurns">Phases at time 0 [turns], as many.</param>
    /// <param name="seconds">Time [s].</param>
    public static double At(double[] hz, double[] startTurns, double seconds)
    {
        double sum = 0;
        for (int i = 0; i < hz.Length; i += Vector256<double>.Count)
        {
            Vector256<double> turns = (Vector256.Create<double>(hz.AsSpan(i)) * seconds) + Vector256.Create<double>(startTurns.AsSpan(i));
            PortableMath.SinCosTurns(turns, out Vector256<double> sin, out _);
            sum += sin.GetElement(0);
            sum += sin.GetElement(1);
            sum += sin.GetElement(2);
            sum += sin.GetElement(3);
        }

        return sum;
    }
}
