// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <content>Eight samples at once.</content>
public partial struct Canceller
{
    /// <summary>What <see cref="PassStill"/> does.</summary>
    /// <param name="lights">The codes, as many as a vector has lanes or more.</param>
    /// <param name="stepped">Bit i: the level moves with sample i.</param>
    private void PassStillLanes(Span<int> lights, uint stepped)
    {
        int level = _level;
        int place = _place256 + (lights.Length * _perLight256);
        for (uint left = stepped; left != 0; left &= left - 1)
        {
            int at = BitOperations.TrailingZeroCount(left);
            _ = WithoutLevel(ref level, lights[at]);
            place = (lights.Length - 1 - at) * _perLight256;
        }

        _level = level;
        _place256 = place < 256 ? place : 256;

        // The last eight once more where they are no whole vector: clipping twice is clipping once.
        ref int first = ref MemoryMarshal.GetReference(lights);
        int last = lights.Length - Lanes.Count;
        for (int i = 0; i < lights.Length; i += Lanes.Count)
        {
            nuint at = (nuint)(i < last ? i : last);
            Vector256<int> light = Vector256.LoadUnsafe(ref first, at);
            Vector256.Max(Vector256.Min(light, Vector256.Create(NormalisedStep.EstimateRail)), Vector256.Create(-NormalisedStep.EstimateRail))
                .StoreUnsafe(ref first, at);
        }
    }
}
