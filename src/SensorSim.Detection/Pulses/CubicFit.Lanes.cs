// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <content>Eight places at once; the samples within an arm of them lie without a break.</content>
public partial struct CubicFit
{
    /// <summary>What <see cref="Slope"/> gives for eight places.</summary>
    /// <param name="held">The latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="at">The first place.</param>
    /// <param name="shift">Right shift that brings differences within the fit to 15 bits.</param>
    internal readonly Vector256<int> SlopesLanes(in Word256 held, int at, int shift)
    {
        ref int middles = ref HeldLanes.At(held, at);
        Vector256<int> sum = Vector256<int>.Zero;
        for (int k = 1; k <= _arm; k++)
        {
            Vector256<int> difference = HeldLanes.Near(ref middles, k) - HeldLanes.Near(ref middles, -k);
            sum += HeldLanes.Clipped(difference, shift) * Vector256.Create((int)_slope[k & (Weights16.Length - 1)]);
        }

        return sum;
    }

    /// <summary>What <see cref="Level"/> gives for eight places.</summary>
    /// <param name="held">The latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="at">The first place.</param>
    /// <param name="reference">The reference, in the samples' own unit.</param>
    /// <param name="shift">Right shift that brings differences from the reference to 15 bits.</param>
    internal readonly Vector256<int> LevelsLanes(in Word256 held, int at, int reference, int shift)
    {
        ref int middles = ref HeldLanes.At(held, at);
        Vector256<int> zero = Vector256.Create(reference);
        Vector256<int> sum = HeldLanes.Clipped(Vector256.LoadUnsafe(ref middles) - zero, shift) * Vector256.Create((int)_level[0]);
        for (int k = 1; k <= _arm; k++)
        {
            Vector256<int> pair = HeldLanes.Clipped(HeldLanes.Near(ref middles, k) - zero, shift)
                + HeldLanes.Clipped(HeldLanes.Near(ref middles, -k) - zero, shift);
            sum += pair * Vector256.Create((int)_level[k & (Weights16.Length - 1)]);
        }

        return sum;
    }
}
