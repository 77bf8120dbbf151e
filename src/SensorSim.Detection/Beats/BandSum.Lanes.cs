// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>Eight samples at once.</content>
public partial struct BandSum
{
    /// <summary>The delay after which a sample leaves the sum.</summary>
    internal readonly LaneDelay Delay => new(_length);

    /// <summary>The latest eight samples, the oldest first; only when a multiple of eight has come.</summary>
    internal Vector256<int> Latest
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        readonly get => Vector256.LoadUnsafe(in _held[0]);
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        set => value.StoreUnsafe(ref _held[0]);
    }

    /// <summary>Turns what is held until the oldest lies first.</summary>
    /// <param name="at">How many samples came, modulo 2^32.</param>
    internal void Turn(int at) => HeldLine.Turn(_held, at);
}
