// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>Eight places at once.</content>
public partial struct BeatLocator
{
    /// <summary>The first of the steepest places, where they and their arms lie in one piece of the held ECG and there is one.</summary>
    private static bool TrySteepest(in BeatWindows w, in Word256 ecg, int begin, int count, out int at, out int slope)
    {
        int first = (begin - w.SlopeArm) & Mask;
        at = 0;
        slope = -1;
        if (count <= 0 || first + count + (2 * w.SlopeArm) + Lanes.Count > Word256.Length)
        {
            return false;
        }

        ref readonly int before = ref ecg[first];
        ref readonly int after = ref ecg[(first + (2 * w.SlopeArm)) & Mask];
        Vector256<int> steepest = Vector256.Create(-1);
        Vector256<int> place = Vector256<int>.Zero;
        Vector256<int> here = Vector256<int>.Indices;
        for (int i = 0; i < count; i += Lanes.Count)
        {
            // In each lane the first of the steepest; what lies behind the end is less than nothing.
            Vector256<int> value = Vector256.Abs(Vector256.LoadUnsafe(in after, (nuint)i) - Vector256.LoadUnsafe(in before, (nuint)i));
            value |= Vector256.GreaterThanOrEqual(here, Vector256.Create(count));
            Vector256<int> isSteeper = Vector256.GreaterThan(value, steepest);
            steepest = Vector256.Max(steepest, value);
            place = Vector256.ConditionalSelect(isSteeper, here, place);
            here += Vector256.Create(Lanes.Count);
        }

        slope = AcrossLanes.Highest(steepest);
        Vector256<int> isOther = ~Vector256.Equals(steepest, Vector256.Create(slope));
        at = AcrossLanes.Lowest((isOther & Vector256.Create(int.MaxValue)) | place);
        return true;
    }
}
