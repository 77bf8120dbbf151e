// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>A stretch of samples at once.</content>
public partial struct PeakFinder
{
    /// <summary>Takes values until a hump is complete or none is left.</summary>
    /// <param name="values">Integrated magnitudes, not negative, readable up to a whole vector.</param>
    /// <param name="count">How many there are.</param>
    /// <param name="isHump">Whether a hump has stayed the highest for the holding time.</param>
    /// <returns>How many were taken.</returns>
    internal int Take(ref int values, int count, out bool isHump)
    {
        int taken = _isRising ? 0 : SeekRise(ref values, count);
        while (taken < count)
        {
            // So few that a hump can be complete with the last of them at the earliest.
            int most = count - taken < _hold - Age ? count - taken : _hold - Age;
            TakeRising(ref Unsafe.Add(ref values, taken), most);
            taken += most;
            if (Age >= _hold)
            {
                _isRising = false;
                _lowest = Unsafe.Add(ref values, taken - 1);
                isHump = true;
                return taken;
            }
        }

        isHump = false;
        return count;
    }

    private int SeekRise(ref int values, int count)
    {
        int lowest = _lowest;
        for (int i = 0; i < count; i++)
        {
            int value = Unsafe.Add(ref values, i);
            if (value <= lowest)
            {
                lowest = value;
            }
            else if (value - lowest > lowest >> 3)
            {
                _lowest = lowest;
                _isRising = true;
                Height = value;
                Age = 0;
                return i + 1;
            }
        }

        _lowest = lowest;
        return count;
    }

    private void TakeRising(ref int values, int count)
    {
        Vector256<int> highest = Vector256.Create(Height);
        for (int i = 0; i < count; i += Lanes.Count)
        {
            highest = Vector256.Max(highest, Counted(ref values, i, count));
        }

        if (highest == Vector256.Create(Height))
        {
            Age += count;
            return;
        }

        // The first of the highest is the top.
        Height = AcrossLanes.Highest(highest);
        for (int i = 0; i < count; i += Lanes.Count)
        {
            uint here = Vector256.Equals(Counted(ref values, i, count), Vector256.Create(Height)).ExtractMostSignificantBits();
            if (here != 0)
            {
                Age = count - 1 - i - BitOperations.TrailingZeroCount(here);
                return;
            }
        }
    }

    // Magnitudes are not negative: what does not count is taken as 0.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Counted(ref int values, int from, int count) =>
        Vector256.LoadUnsafe(ref values, (nuint)from) & Vector256.LessThan(Vector256<int>.Indices, Vector256.Create(count - from));
}
