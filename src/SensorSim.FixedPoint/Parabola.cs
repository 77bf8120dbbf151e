// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint;

/// <summary>The top (or bottom) of the parabola through three equally spaced points.</summary>
public static class Parabola
{
    /// <summary>Where the vertex lies relative to the middle point.</summary>
    /// <param name="before">Value one spacing earlier.</param>
    /// <param name="middle">Value in the middle, the extreme of the three.</param>
    /// <param name="after">Value one spacing later.</param>
    /// <returns>Offset in 1/256 of the spacing, −128 to 128; 0 when the three lie on a line.</returns>
    /// <remarks>
    /// Input: 31 bits, any common format.
    /// Product: differences scaled to 22 bits, times 128: 29 bits.
    /// Accumulator: 32 bits; differences of 31-bit words are taken after halving twice.
    /// Worst case: a tie of two points gives ±128; beyond that clipped.
    /// Output: Q2.8 of a spacing, rounded to nearest; one 32-bit division, so once per beat.
    /// </remarks>
    public static int Vertex256(int before, int middle, int after)
    {
        int left = (middle >> 2) - (before >> 2);
        int right = (middle >> 2) - (after >> 2);
        if (Sat.Abs32(left) < (1 << 26) && Sat.Abs32(right) < (1 << 26))
        {
            left = middle - before;
            right = middle - after;
        }

        int larger = Sat.Abs32(left) > Sat.Abs32(right) ? Sat.Abs32(left) : Sat.Abs32(right);
        int shift = Shift.Needed(larger, 22);
        left = Shift.Floor(left, shift);
        right = Shift.Floor(right, shift);
        int curvature = left + right;
        if (curvature == 0)
        {
            return 0;
        }

        // Vertex = (left − right) / (2 (left + right)) spacings; 128 × 2 = 256.
        int magnitude = Sat.Abs32(curvature);
        int rise = curvature > 0 ? left - right : right - left;
        int offset = ((Sat.Abs32(rise) * 128) + (magnitude >> 1)) / magnitude;
        return Sat.Narrow(rise < 0 ? -offset : offset, 128);
    }
}
