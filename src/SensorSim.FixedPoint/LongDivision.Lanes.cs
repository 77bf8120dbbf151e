// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

/// <content>Where a processor has a divider of 64 bits. No lanes, but left out of the C like them.</content>
public static partial class LongDivision
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Divided(ulong numerator, uint denominator)
    {
        ulong quotient = numerator / denominator;
        if (quotient >= int.MaxValue)
        {
            return int.MaxValue;
        }

        ulong remainder = numerator - (quotient * denominator);
        return (int)quotient + (2 * remainder >= denominator ? 1 : 0);
    }
}
