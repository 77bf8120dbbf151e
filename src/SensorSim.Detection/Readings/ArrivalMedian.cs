// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>The running median of the last eight arrival times, and whether those left out agree among themselves.</summary>
/// <remarks>
/// Input: thousandths of a millisecond, 80,000 to 450,000.
/// Product: none.
/// Accumulator: 16 bits in steps of 8 µs, rounded to nearest.
/// Worst case: 450 ms are 56,250 steps.
/// Output: thousandths of a millisecond, within 4 µs of the exact median.
/// </remarks>
public struct ArrivalMedian
{
    private const int Steps = 3;
    private const int Enough = 4;
    private Half8 _times;
    private ushort _first;
    private byte _count;
    private byte _at;
    private byte _strays;
    private byte _history;

    /// <summary>Times held, up to 8.</summary>
    public readonly int Count => _count;

    /// <summary>The median.</summary>
    /// <param name="otherwise">What counts as the median while there are fewer than four times.</param>
    public readonly int Value(int otherwise)
    {
        if (_count < Enough)
        {
            return otherwise;
        }

        Word8 times = default;
        for (int i = 0; i < _count; i++)
        {
            times[i] = _times[i];
        }

        return Median.OfUpTo8(((ReadOnlySpan<int>)times)[.._count]) << Steps;
    }

    /// <summary>Takes a time that was given.</summary>
    /// <param name="timeUs">The time [1/1000 ms].</param>
    public void Add(int timeUs)
    {
        _strays = 0;
        _history = (byte)((_history << 1) & 255);
        _times[_at] = (ushort)Shift.Round(timeUs, Steps);
        _at = (byte)((_at + 1) & (Half8.Length - 1));
        _count = (byte)(_count < Half8.Length ? _count + 1 : Half8.Length);
    }

    /// <summary>How restless the last eight were: a point for each quarter millisecond that their inner six span, 16 for each one left out.</summary>
    public readonly int Unrest()
    {
        int strays = 0;
        for (int i = 0; i < 8; i++)
        {
            strays += (_history >>> i) & 1;
        }

        if (_count < Half8.Length)
        {
            return 16 * strays;
        }

        int low = ushort.MaxValue;
        int lower = ushort.MaxValue;
        int high = 0;
        int higher = 0;
        for (int i = 0; i < _count; i++)
        {
            int time = _times[i];
            lower = time < low ? low : time < lower ? time : lower;
            low = time < low ? time : low;
            higher = time > high ? high : time > higher ? time : higher;
            high = time > high ? time : high;
        }

        // Steps of 8 µs: 32 of them are about a quarter of a millisecond.
        return (16 * strays) + Shift.Floor(higher - lower, 5);
    }

    /// <summary>Forgets all but a new level; what follows is judged by it at once.</summary>
    /// <param name="timeUs">The level [1/1000 ms].</param>
    public void Begin(int timeUs)
    {
        byte history = _history;
        this = default;
        _history = history;
        for (int i = 1; i < Enough; i++)
        {
            Add(timeUs);
        }
    }

    /// <summary>Takes a time that was left out.</summary>
    /// <param name="timeUs">The time [1/1000 ms].</param>
    /// <param name="farUs">Within this of the first of them they agree [1/1000 ms].</param>
    /// <param name="patience">How many in a row make a new level.</param>
    /// <returns>Whether there is a new level.</returns>
    public bool IsMoved(int timeUs, int farUs, int patience)
    {
        if (_strays == 0 || Sat.Abs32(timeUs - (_first << Steps)) > farUs)
        {
            _first = (ushort)Shift.Round(timeUs, Steps);
            _strays = 0;
        }

        _history = (byte)(((_history << 1) | 1) & 255);
        _strays++;
        return _strays >= patience;
    }
}
