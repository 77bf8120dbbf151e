// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>A stretch of samples at once, while it is idle: it only delays by four samples then.</content>
public partial struct SpikeFilter
{
    /// <summary>The latest eight codes, the oldest first; only after <see cref="Align"/>. A flag to come asks for less.</summary>
    internal Vector256<int> Latest
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        readonly get => Vector256.LoadUnsafe(in _held[0]);
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        set => value.StoreUnsafe(ref _held[0]);
    }

    /// <summary>The samples that wait for their delay, the oldest first; only after <see cref="Align"/>.</summary>
    internal readonly ReadOnlySpan<int> Waiting
    {
        [System.Diagnostics.CodeAnalysis.UnscopedRef]
        get => _held[BeatLines.Delay..(2 * BeatLines.Delay)];
    }

    /// <summary>Puts the latest eight codes first.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal void Align()
    {
        if (_at != Lanes.Count)
        {
            HeldLine.Turn(_held, _at - Lanes.Count);
            _at = Lanes.Count;
        }
    }
}
