// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>What is usual in a rhythm of early wide beats with pauses, whose intervals are never alike: half of an early interval and its pause.</summary>
/// <remarks>
/// An early ventricular beat leaves the sinus node alone, so its interval and the pause after it last as long as two usual ones.
/// Input: intervals of 27 bits (6 s), any unit.
/// Product: none.
/// Accumulator: two intervals, 28 bits.
/// Worst case: none.
/// Output: a usual interval, same unit; 0 when there was no such pair among the latest intervals.
/// </remarks>
public struct EarlyPairs
{
    // So many intervals long it holds; each new pair counts a quarter, for two intervals breathe.
    private const byte KnownFor = 16;
    private const int Share = 2;

    private int _sum;
    private byte _knownFor;
    private byte _pauses;

    /// <summary>The usual interval; 0 when it is not known.</summary>
    public readonly int Usual => _knownFor > 0 ? Shift.Floor(_sum, 1) : 0;

    /// <summary>Whether the oldest of the latest eight intervals is the pause of an early beat that lies before them.</summary>
    public readonly bool BeginsWithPause => (_pauses & 128) != 0;

    /// <summary>Takes an interval.</summary>
    /// <param name="interval">The interval.</param>
    /// <param name="before">The one before it.</param>
    /// <param name="middle">Median of the latest ones.</param>
    /// <param name="isAfterWide">Whether the beat between the two is wide.</param>
    public void Add(int interval, int before, int middle, bool isAfterWide)
    {
        int sum = before + interval;
        bool isPause = isAfterWide && interval > before + Shift.Floor(before, 1) && Sat.Abs32(sum - (2 * middle)) <= Shift.Floor(middle, 2);
        if (isPause)
        {
            _sum = _knownFor > 0 ? _sum + Shift.Floor(sum - _sum, Share) : sum;
            _knownFor = KnownFor;
        }
        else if (_knownFor > 0)
        {
            _knownFor--;
        }

        _pauses = (byte)(((_pauses << 1) & 255) | (isPause ? 1 : 0));
    }
}
