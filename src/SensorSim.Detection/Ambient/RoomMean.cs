// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <summary>Level of the room's light over about a second, and how much it moves.</summary>
/// <remarks>
/// Input: codes of up to 24 bits and sign.
/// Product: none.
/// Accumulator: 32 bits; both Q25.6, magnitudes clipped at 2^30.
/// Worst case: step of 2^24 codes.
/// Output: as the accumulator.
/// </remarks>
public struct RoomMean
{
    /// <summary>Mean of the dark samples.</summary>
    public int Level;

    /// <summary>Mean of how far they are from it.</summary>
    public int Swing;

    /// <summary>Begins with a dark sample.</summary>
    /// <param name="dark">The sample [codes above zero].</param>
    public void Begin(int dark) => Level = dark << RoomLine.Fraction;

    /// <summary>Takes the next dark sample.</summary>
    /// <param name="dark">The sample [codes above zero].</param>
    /// <param name="shift">The means have 2^−shift of each.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next(int dark, int shift)
    {
        int off = (dark << RoomLine.Fraction) - Level;
        int size = Sat.Abs32(off);
        size = size < RoomLine.MeanRail ? size : RoomLine.MeanRail;
        Swing += Shift.Round(size - Swing, shift);
        Level += Shift.Round(off, shift);
    }
}
