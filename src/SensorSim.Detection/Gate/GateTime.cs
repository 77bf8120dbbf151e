// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Gate;

/// <summary>Short spans for the gates: whole units of about a thousandth of a second, found by a shift.</summary>
/// <remarks>
/// Input: spans in 1/256 tick of the common clock, 63 bits.
/// Product: milliseconds × units per second, 21 + 11 bits, in 64 bits; 131 / 2^17 in place of a division by 1000.
/// Accumulator: 64 bits.
/// Worst case: spans of 2^31 units and more (12 days) clip; negative ones count as none.
/// Output: units of 1/1024 to 1/2047 s, floor.
/// </remarks>
public struct GateTime
{
    // 2^17 / 1000 is 131.07.
    private const int PerMs = 131;

    private int _unitsPerSecond;
    private byte _shift;

    /// <summary>Chooses the unit.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        long perSecond = clock.TicksPerSecond * 256;
        _shift = 0;
        while (perSecond >> _shift > 2047)
        {
            _shift++;
        }

        _unitsPerSecond = (int)(perSecond >> _shift);
    }

    /// <summary>A span in units.</summary>
    /// <param name="ticks256">The span [1/256 tick].</param>
    public readonly int Units(long ticks256)
    {
        long units = ticks256 < 0 ? 0 : (long)((ulong)ticks256 >> _shift);
        return units > int.MaxValue ? int.MaxValue : (int)units;
    }

    /// <summary>Milliseconds in units, within 0.1 %.</summary>
    /// <param name="ms">0 to 60,000.</param>
    public readonly int FromMs(int ms) => (int)(((long)ms * PerMs * _unitsPerSecond) >> 17);

    /// <summary>A span in 1/256 tick.</summary>
    /// <param name="units">The span [units].</param>
    public readonly long Ticks256(int units) => (long)units << _shift;
}
