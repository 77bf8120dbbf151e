// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.FixedPoint;

/// <summary>Eight samples that came a few samples before eight others, out of two vectors in registers: memory that has just been written would be waited for.</summary>
/// <remarks>For processors with AVX2; ask <see cref="Avx2.IsSupported"/> before.</remarks>
public readonly struct LaneDelay
{
    private readonly Vector256<int> _from;
    private readonly Vector256<int> _isOlder;

    /// <summary>Sets the delay.</summary>
    /// <param name="samples">0 to 8.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public LaneDelay(int samples)
    {
        // The last lanes of the older vector and the first ones of the newer one never lie in the same places.
        _isOlder = Vector256.GreaterThan(Vector256<int>.Indices, Vector256.Create(Lanes.Count - 1 - samples));
        int from = Avx512F.VL.IsSupported ? Lanes.Count - samples : -samples;
        _from = Vector256<int>.Indices + Vector256.Create(from);
    }

    /// <summary>The delayed samples.</summary>
    /// <param name="newer">Eight samples.</param>
    /// <param name="older">The eight before them.</param>
    /// <returns>In each lane the sample that came the delay before that lane of the newer ones.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<int> Of(Vector256<int> newer, Vector256<int> older) => Avx512F.VL.IsSupported
        ? Avx512F.VL.PermuteVar8x32x2(older, _from, newer)
        : Avx2.PermuteVar8x32(Avx2.BlendVariable(newer, older, _isOlder), _from);
}
