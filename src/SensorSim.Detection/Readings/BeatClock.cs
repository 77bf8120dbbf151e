// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Intervals between beats in one word of 31 bits: the 1/256 tick made coarser by a power of two where the clock is fast.</summary>
/// <remarks>
/// Input: ticks per second up to 10^9.
/// Product: 120 s × 256 × ticks per second, 45 bits.
/// Accumulator: 64 bits, once per beat.
/// Worst case: 120 s stay below 2^31 units; longer spans give 2^31 − 1. Up to 65 kHz a unit is 1/256 tick, so nothing is lost.
/// Output: units of 2^shift / 256 ticks; sums of neighbouring intervals are exact, for places are rounded, not intervals.
/// </remarks>
public struct BeatClock
{
    private const int LongestS = 120;
    private int _unitsPerSecond;
    private byte _shift;

    /// <summary>Units in a second.</summary>
    public readonly long UnitsPerSecond => _unitsPerSecond;

    /// <summary>Sets the clock.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        long units = clock.TicksPerSecond * 256;
        _shift = 0;
        while (units * LongestS > int.MaxValue)
        {
            units >>>= 1;
            _shift++;
        }

        _unitsPerSecond = (int)units;
    }

    /// <summary>From one place to a later one [units], 0 to 2^31 − 1.</summary>
    /// <param name="from256">The earlier place [1/256 tick].</param>
    /// <param name="to256">The later place [1/256 tick].</param>
    public readonly int Span(long from256, long to256)
    {
        long span = Wide.Floor(to256, _shift) - Wide.Floor(from256, _shift);
        return span < 0 ? 0 : span > int.MaxValue ? int.MaxValue : (int)span;
    }

    /// <summary>The same span in 1/256 tick.</summary>
    /// <param name="units">The span [units].</param>
    public readonly long Ticks256(long units) => units << _shift;

    /// <summary>A span in small steps of time, for 16-bit words.</summary>
    /// <param name="units">The span [units], at least 0.</param>
    /// <param name="stepsPerSecond">Steps in a second, up to 65,536.</param>
    /// <returns>Steps, rounded to nearest.</returns>
    public readonly int Steps(int units, int stepsPerSecond) =>
        LongDivision.Rounded((ulong)(uint)units * (uint)stepsPerSecond, (uint)_unitsPerSecond);
}
