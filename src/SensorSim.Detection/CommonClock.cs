// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection;

/// <summary>The clock that channels of different rates share: ticks, and 1/256 of a tick where more is needed.</summary>
/// <remarks>
/// Input: ticks per second up to 10^9.
/// Product: (ticks × 256) × 15625, 63 bits for spans of up to 2.3 × 10^12 ticks × 256 (40 min on a clock of 1 GHz; days on usual ones).
/// Accumulator: 64 bits, never once a sample.
/// Worst case: results above 2^31 − 1 clip.
/// Output: thousandths of a millisecond, or seconds, rounded to nearest; one long division each.
/// </remarks>
/// <param name="TicksPerSecond">Ticks in a second: the lowest common multiple of the channels' rates.</param>
public readonly record struct CommonClock(long TicksPerSecond)
{
    /// <summary>A span in 1/256 tick.</summary>
    /// <param name="ms">The span [ms]; divides once, for use at start-up.</param>
    public long Ticks256(int ms) => ms * 256L * TicksPerSecond / 1000;

    /// <summary>A span in thousandths of a millisecond.</summary>
    /// <param name="ticks256">The span [1/256 tick], at least 0.</param>
    public int Microseconds(long ticks256)
    {
        // ticks256 × 10^6 / (256 × ticks per second) = ticks256 × 15625 / (4 × ticks per second).
        ulong numerator = (ulong)ticks256 * 15625;
        ulong denominator = (ulong)TicksPerSecond * 4;
        while (denominator > int.MaxValue)
        {
            numerator >>= 1;
            denominator >>= 1;
        }

        return LongDivision.Rounded(numerator, (uint)denominator);
    }

    /// <summary>A span in whole seconds, rounded to nearest.</summary>
    /// <param name="ticks256">The span [1/256 tick], at least 0.</param>
    public int Seconds(long ticks256)
    {
        ulong numerator = (ulong)ticks256;
        ulong denominator = (ulong)TicksPerSecond * 256;
        while (denominator > int.MaxValue)
        {
            numerator >>= 1;
            denominator >>= 1;
        }

        return LongDivision.Rounded(numerator, (uint)denominator);
    }
}
