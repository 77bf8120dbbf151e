// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

/// <summary>Eight numbers in their order.</summary>
public static class Sort8
{
    /// <summary>Puts eight numbers in order, the lowest first.</summary>
    /// <param name="values">The numbers.</param>
    /// <remarks>
    /// Input: 32 bits, any common format.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: none.
    /// Output: the same numbers. Batcher's network (1968) of 19 comparisons that do not depend on each other's outcome, so there is nothing to predict.
    /// </remarks>
    public static void Sort(ref Word8 values)
    {
        int a = values[0];
        int b = values[1];
        int c = values[2];
        int d = values[3];
        int e = values[4];
        int f = values[5];
        int g = values[6];
        int h = values[7];
        Order(ref a, ref b);
        Order(ref c, ref d);
        Order(ref e, ref f);
        Order(ref g, ref h);
        Order(ref a, ref c);
        Order(ref b, ref d);
        Order(ref e, ref g);
        Order(ref f, ref h);
        Order(ref b, ref c);
        Order(ref f, ref g);
        Order(ref a, ref e);
        Order(ref b, ref f);
        Order(ref c, ref g);
        Order(ref d, ref h);
        Order(ref c, ref e);
        Order(ref d, ref f);
        Order(ref b, ref c);
        Order(ref d, ref e);
        Order(ref f, ref g);
        values[0] = a;
        values[1] = b;
        values[2] = c;
        values[3] = d;
        values[4] = e;
        values[5] = f;
        values[6] = g;
        values[7] = h;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Order(ref int low, ref int high)
    {
        int first = low;
        int second = high;
        low = first < second ? first : second;
        high = first < second ? second : first;
    }
}
