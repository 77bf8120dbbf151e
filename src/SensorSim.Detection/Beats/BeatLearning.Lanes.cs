// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>A stretch of samples at once.</content>
public partial struct BeatLearning
{
    /// <summary>Takes values up to the end of a block at most.</summary>
    /// <param name="values">Integrated magnitudes, readable up to a whole vector.</param>
    /// <param name="count">How many count, 1 to 40.</param>
    /// <param name="blockLength">Working samples in a block.</param>
    /// <returns>Whether a block is complete.</returns>
    internal bool Watch(ref int values, int count, int blockLength)
    {
        Vector256<int> highest = Vector256.Create(_blockHighest);
        Vector256<ulong> even = default;
        Vector256<ulong> odd = default;
        for (int i = 0; i < count; i += Lanes.Count)
        {
            // Magnitudes are not negative: what does not count is taken as 0.
            Vector256<int> counts = Vector256.LessThan(Vector256<int>.Indices, Vector256.Create(count - i));
            Vector256<int> value = Vector256.LoadUnsafe(ref values, (nuint)i) & counts;
            highest = Vector256.Max(highest, value);
            even += value.AsUInt64() & Vector256.Create(0xFFFFFFFFUL);
            odd += value.AsUInt64() >> 32;
        }

        Vector256<ulong> sum = even + odd;
        Vector128<ulong> half = sum.GetLower() + sum.GetUpper();
        _blockSum += (long)(half.GetElement(0) + half.GetElement(1));
        _blockHighest = AcrossLanes.Highest(highest);
        _taken += count;
        if (_taken < blockLength)
        {
            return false;
        }

        Close(blockLength);
        return true;
    }
}
