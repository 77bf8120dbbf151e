// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>What breathing does to one quantity of the beats, twice a second over the last 32 s.</summary>
/// <remarks>
/// Input: a value of 30 bits per beat, its place in 1/256 tick, and what counts as 256.
/// Product: deviation × 256, 39 bits; 64 bits.
/// Accumulator: running mean, 32 bits: an eighth of each new value.
/// Worst case: deviations beyond ±127 clip: half of the unit.
/// Output: 8 bits, deviation from the running mean in 1/256 of the unit; one long division per beat and one for each half second.
/// </remarks>
public struct BreathSeries
{
    /// <summary>Values held.</summary>
    public const int Length = Signed64.Length;

    private const int LongestSteps = 8;

    private Signed64 _values;
    private long _before256;
    private long _next256;
    private int _mean;
    private sbyte _beforeValue;
    private byte _at;
    private byte _held;
    private bool _hasBefore;

    /// <summary>Where the next value will stand [1/256 tick]; 0 while there is none.</summary>
    public readonly long Next256 => _next256;

    /// <summary>Whether 32 s are held.</summary>
    public readonly bool IsFull => _held == Length;

    /// <summary>The running mean of the values.</summary>
    public readonly int Mean => _mean;

    /// <summary>A value.</summary>
    /// <param name="age">0 for the oldest, 63 for the latest.</param>
    public readonly int this[int age] => _values[(_at + age) & (Length - 1)];

    /// <summary>What comes next does not follow what came before; what is held is dropped, the mean stays.</summary>
    public void Restart()
    {
        _hasBefore = false;
        _held = 0;
    }

    /// <summary>Takes the value of a beat.</summary>
    /// <param name="ticks256">Its place [1/256 tick].</param>
    /// <param name="value">The value.</param>
    /// <param name="step256">Half a second [1/256 tick].</param>
    /// <param name="unit">Which difference of values counts as 256; at least 1.</param>
    /// <returns>How many values of the grid were made.</returns>
    public int Add(long ticks256, long step256, int value, int unit)
    {
        _mean = _mean == 0 ? value : _mean + Shift.Round(value - _mean, 3);
        int off = value - _mean;
        int size = LongDivision.Rounded((ulong)(uint)Sat.Abs32(off) * 256, unit < 1 ? 1 : (uint)unit);
        sbyte here = (sbyte)(off < 0 ? -(size > 127 ? 127 : size) : size > 127 ? 127 : size);
        if (!_hasBefore || ticks256 <= _before256 || ticks256 - _before256 > step256 * LongestSteps)
        {
            Restart();
            _hasBefore = true;
            _next256 = ticks256 + step256;
            _before256 = ticks256;
            _beforeValue = here;
            return 0;
        }

        int made = 0;
        while (_next256 <= ticks256)
        {
            _values[_at] = Between(_next256, ticks256, here);
            _at = (byte)((_at + 1) & (Length - 1));
            _held = (byte)(_held < Length ? _held + 1 : Length);
            _next256 += step256;
            made++;
        }

        _before256 = ticks256;
        _beforeValue = here;
        return made;
    }

    /// <summary>The straight line from the beat before.</summary>
    private readonly sbyte Between(long at256, long ticks256, int here)
    {
        // Both spans shortened to 24 bits: 1/256 of a beat is enough.
        ulong whole = (ulong)(ticks256 - _before256);
        ulong part = (ulong)(at256 - _before256);
        int down = Wide.Bits(whole) - 24;
        down = down < 0 ? 0 : down;
        int rise = here - _beforeValue;
        int step = LongDivision.Rounded((part >> down) * (uint)Sat.Abs32(rise), (uint)(whole >> down));
        return (sbyte)(_beforeValue + (rise < 0 ? -step : step));
    }
}
