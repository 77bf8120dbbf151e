// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Gate;

/// <summary>Whether the last eight beats or pulses look like each other: their intervals and their heights.</summary>
/// <remarks>
/// Input: times in units of <see cref="GateTime"/>, 16 bits a span; heights of 31 bits and a sign.
/// Product: medians by 3, 9 and 13, of 15 bits.
/// Accumulator: 32 bits.
/// Worst case: intervals above 2^15 − 1 units (16 s) clip; none is regular at that length.
/// Output: counts up to 15, once per beat; heights on a scale of 1/64 octave (piecewise linear, at most 5.5/64 off).
/// </remarks>
public partial struct Evidence
{
    // A height belongs to the others within 3/8 octave: + 30 %, − 23 %.
    private const int HeightReach = 24;
    private const int Mask = SignedHalf8.Length - 1;

    // A regular rhythm with one too many has two odd intervals, after one early beat besides three.
    private const int OddWhenRegular = 3;

    // The next one is missing after a second and 2 1/4 typical intervals: one may be missed, and is told half a second late.
    // As long as no interval is known, after the longest interval that a slow heart has (20 a minute) and that second.
    private const int LateMs = 1000;
    private const int LongestMs = 3000;

    private SignedHalf8 _intervals;
    private SignedHalf8 _heights;
    private long _last256;
    private short _interval;
    private short _typical;
    private byte _intervalAt;
    private byte _heightAt;
    private byte _intervalCount;
    private byte _heightCount;
    private byte _excess;

    /// <summary>Heights known, 0 to 8.</summary>
    public readonly int Count => _heightCount;

    /// <summary>Intervals known, 0 to 8.</summary>
    public readonly int IntervalCount => _intervalCount;

    /// <summary>How many intervals and heights stand out from the rest.</summary>
    public byte Faults { get; private set; }

    /// <summary>How many of those are left when early beats that a pause follows, as after an ectopic beat, are taken as they are.</summary>
    public byte Unexplained { get; private set; }

    /// <summary>How many intervals stand out.</summary>
    public byte IntervalFaults { get; private set; }

    /// <summary>How many heights stand out.</summary>
    public byte HeightFaults { get; private set; }

    /// <summary>Median interval [units]; 0 while none is known.</summary>
    public readonly short Interval => _interval;

    /// <summary>Whether the latest one came early, or stood out in height at an odd time: what it is shows with the next.</summary>
    public bool IsDoubtful { get; private set; }

    /// <summary>Whether the one before the latest was one too many: it cut a regular interval in two.</summary>
    public bool IsCut { get; private set; }

    /// <summary>The same, or heights and intervals together say that one was too many or was missed.</summary>
    public bool IsBroken { get; private set; }

    /// <summary>Whether the latest interval is longer than the median by half and more: one may have been missed.</summary>
    public readonly bool IsLonger => _excess > 0;

    /// <summary>Whether it is longer than a pause after an ectopic beat, in a regular rhythm.</summary>
    public readonly bool IsDouble => _excess > 1;

    /// <summary>How far the height of the latest one is off the typical one [1/64 octave].</summary>
    public readonly int HeightOff => Sat.Abs32(HeightBack(1) - _typical);

    /// <summary>Whether the height of the latest one belongs to the others.</summary>
    public readonly bool IsUsualHeight => HeightOff <= HeightReach;

    /// <summary>When the latest one was [1/256 tick].</summary>
    public readonly long LastTicks256 => _last256;

    /// <summary>Whether the next one is long overdue.</summary>
    /// <param name="time">The unit of time.</param>
    /// <param name="ticks256">Now [1/256 tick].</param>
    public readonly bool IsSilent(in GateTime time, long ticks256)
    {
        int due = _intervalCount == 0 ? time.FromMs(LongestMs) : (2 * Interval) + Shift.Floor(Interval, 2);
        return time.Units(ticks256 - _last256) > due + time.FromMs(LateMs);
    }

    /// <summary>The latest four intervals together [units]; 0 while fewer are known.</summary>
    public readonly int LatestFour =>
        _intervalCount < 4 ? 0 : IntervalBack(1) + IntervalBack(2) + IntervalBack(3) + IntervalBack(4);

    /// <summary>Whether somewhere in memory a regular interval is cut in two.</summary>
    public readonly bool HasCut()
    {
        bool has = false;
        for (int i = 1; i < _intervalCount; i++)
        {
            has |= IsCutAt(i);
        }

        return has;
    }

    /// <summary>Whether somewhere in memory there is one too many or one is missing.</summary>
    public readonly bool HasBreak()
    {
        bool has = false;
        for (int i = 1; i < _intervalCount; i++)
        {
            has |= IsBrokenAt(i);
        }

        return has;
    }

    /// <summary>Forgets everything.</summary>
    public void Clear() => this = default;

    /// <summary>Heights change from here on; intervals stay.</summary>
    public void ForgetHeights()
    {
        _heightCount = 0;
        HeightFaults = 0;
    }

    /// <summary>Takes a beat or a pulse.</summary>
    /// <param name="time">The unit of time.</param>
    /// <param name="ticks256">Its place [1/256 tick].</param>
    /// <param name="height">Its height with its sign, any unit.</param>
    /// <param name="startsRun">Whether there is no interval to it.</param>
    public void Add(in GateTime time, long ticks256, int height, bool startsRun)
    {
        bool hadInterval = _intervalCount > 0 && !startsRun;
        if (_heightCount > 0 && !startsRun)
        {
            int units = time.Units(ticks256 - _last256);
            _intervals[_intervalAt] = units > short.MaxValue ? short.MaxValue : (short)units;
            _intervalAt = (byte)((_intervalAt + 1) & Mask);
            _intervalCount += _intervalCount < SignedHalf8.Length ? (byte)1 : (byte)0;
        }

        _last256 = ticks256;
        _heights[_heightAt] = Scale(height);
        _heightAt = (byte)((_heightAt + 1) & Mask);
        _heightCount += _heightCount < SignedHalf8.Length ? (byte)1 : (byte)0;
        Weigh(hadInterval);
    }

    /// <summary>Where the last few begin: nothing older need be believed.</summary>
    /// <param name="time">The unit of time.</param>
    /// <param name="intervals">How many intervals back.</param>
    /// <returns>A place at most a unit an interval before the first of them [1/256 tick].</returns>
    public readonly long Back(in GateTime time, int intervals)
    {
        int sum = 0;
        for (int i = 1; i <= intervals && i <= _intervalCount; i++)
        {
            sum += IntervalBack(i) + 1;
        }

        return _last256 - time.Ticks256(sum);
    }

    /// <summary>A height on a scale of 1/64 octave, its sign kept.</summary>
    private static short Scale(int height)
    {
        int magnitude = height == 0 ? 1 : Sat.Abs32(height);
        int exponent = Shift.Needed(magnitude, 1);
        int scaled = (exponent * 64) + 1 + (exponent > 6 ? Shift.Floor(magnitude, exponent - 6) - 64 : (magnitude << (6 - exponent)) - 64);
        return (short)(height < 0 ? -scaled : scaled);
    }

    private static bool IsAlike(int height, int other) => Sat.Abs32(height - other) <= HeightReach;

    /// <summary>Whether a value lies within 3/16 of another.</summary>
    private static bool IsNear(int value, int of) => 16 * (value - of) <= 3 * of && 16 * (of - value) <= 3 * of;

    /// <summary>The median magnitude, with the sign that most have.</summary>
    private readonly int TypicalHeight()
    {
        SignedHalf8 magnitudes = default;
        int positive = 0;
        for (int i = 0; i < _heightCount; i++)
        {
            magnitudes[i] = (short)Sat.Abs32(_heights[i]);
            positive += _heights[i] > 0 ? 1 : -1;
        }

        int median = MedianOf(magnitudes, _heightCount);
        return positive < 0 ? -median : median;
    }

    internal static int MedianOf(in SignedHalf8 values, int count)
    {
        if (count == 0)
        {
            return 0;
        }

        Word8 words = default;
        for (int i = 0; i < count; i++)
        {
            words[i] = values[i];
        }

        return Median.OfUpTo8(((ReadOnlySpan<int>)words)[..count]);
    }
}
