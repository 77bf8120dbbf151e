// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>A stretch of samples at once.</content>
public partial struct BeatSum
{
    /// <summary>By how much the samples that leave the sum lie before a whole vector.</summary>
    internal readonly LaneDelay Delay => new(_length & (Lanes.Count - 1));

    /// <summary>What is held, in the order of time only when a multiple of 32 has come.</summary>
    internal readonly ReadOnlySpan<int> Held
    {
        [System.Diagnostics.CodeAnalysis.UnscopedRef]
        get => _held;
    }

    /// <summary>The whole vector before which, or in which, those samples end that leave the sum when others come.</summary>
    /// <param name="newest">First of the samples that come.</param>
    internal readonly ref int Leaving(ref int newest) => ref Unsafe.Subtract(ref newest, _length & ~(Lanes.Count - 1));

    /// <summary>Turns what is held until the oldest lies first.</summary>
    /// <param name="at">How many samples came, modulo 2^32.</param>
    internal void Turn(int at) => HeldLine.Turn(_held, at);

    /// <summary>Holds 32 samples; a multiple of 32 counts as having come.</summary>
    /// <param name="latest">The samples, the oldest first; more may follow.</param>
    internal void Hold(ReadOnlySpan<int> latest) => latest[..Word32.Length].CopyTo(_held);
}
