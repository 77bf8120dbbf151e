// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Heart rate from beats or pulses: n / (last − first) over the latest intervals without a gap, eight of them or at least four.</summary>
/// <remarks>
/// <para>
/// After a gap four intervals are enough: they come within 4 s at rest, and a place that is 5 ms off moves their mean by 1/4 of what it moves one
/// interval, 0.2 bpm at 75 bpm. A beat that was missed (one interval of twice the median among regular ones) or one too many (two that make one)
/// is no part of a reading: there is none until four intervals have come since. Fewer than eight must be alike, for a false beat among four moves their rate by a tenth. Ectopic beats change no such sum, so they stay in;
/// where they are many, the sum of one and its pause says what is usual (<see cref="EarlyPairs"/>).
/// </para>
/// Input: places in 1/256 tick, made units of 31 bits.
/// Product: 60,000 × 8 × 256 × ticks per second, 57 bits on a clock of 1 GHz.
/// Accumulator: 32 bits for up to eight intervals, each below 6 s.
/// Worst case: an interval above 6 s (10 bpm) ends the run; quotients above 2^31 − 1 clip.
/// Output: thousandths of a beat per minute, rounded to nearest; one long division per beat.
/// </remarks>
public struct HeartRate
{
    private const int Most = Word8.Length;
    private const int Least = 4;
    private const int LongestS = 6;

    // Quality of a beat that was found by looking back.
    private const byte LookedBack = 64;

    // What was usual is known for as long as what came after it may stand in a window: a place of eight odd intervals and the window behind it.
    private const byte KnownFor = 2 * Most;

    // The least for the rate of some span of time: it is compared only.
    private const int LeastWithin = 3;
    private const int ManyWithin = 6;
    private const int LeastWithinS = 3;

    private Word8 _intervals;
    private Byte8 _qualities;
    private BeatClock _clock;
    private long _last256;
    private long _end256;
    private int _longest;
    private int _span;
    private int _usual;
    private byte _knownFor;
    private byte _count;
    private byte _at;
    private byte _used;
    private byte _quality;
    private bool _hasLast;
    private bool _isWide;
    private ReadingKind _kind;

    /// <summary>The latest value; quality 0 until there was one.</summary>
    public readonly Reading Latest => new(_kind, RateMilliBpm, _quality, _end256, _clock.Ticks256(_span));

    /// <summary>The latest value [1/1000 bpm].</summary>
    public int RateMilliBpm { get; private set; }

    /// <summary>Forgets.</summary>
    /// <param name="clock">The common clock.</param>
    /// <param name="kind">What the reading is called: of the ECG or of the pulse.</param>
    public void Start(CommonClock clock, ReadingKind kind)
    {
        this = default;
        _kind = kind;
        _clock.Start(clock);
        _longest = (int)(_clock.UnitsPerSecond * LongestS);
    }

    /// <summary>Takes a beat.</summary>
    /// <param name="ticks256">Its R peak, or a pulse's place of the same kind each time [1/256 tick].</param>
    /// <param name="startsRun">Whether there is no interval to it.</param>
    /// <param name="quality">Its trust, 0 to 255.</param>
    /// <returns>Whether there is a new value.</returns>
    public bool Add(long ticks256, bool startsRun, byte quality)
    {
        EarlyPairs none = default;
        return Add(ticks256, startsRun, quality, false, ref none);
    }

    /// <summary>Takes a beat that may be wide.</summary>
    /// <param name="ticks256">Its R peak [1/256 tick].</param>
    /// <param name="startsRun">Whether there is no interval to it.</param>
    /// <param name="quality">Its trust, 0 to 255.</param>
    /// <param name="isWide">Whether it is a wide beat.</param>
    /// <param name="early">What early wide beats and their pauses say; the same one each time.</param>
    /// <returns>Whether there is a new value.</returns>
    public bool Add(long ticks256, bool startsRun, byte quality, bool isWide, ref EarlyPairs early)
    {
        bool isAfterWide = _isWide;

        // One found by looking back is too unsure to say what is usual: in the pause of a blocked beat there is often a false one.
        _isWide = isWide && quality > LookedBack;
        int interval = _hasLast ? _clock.Span(_last256, ticks256) : 0;
        _last256 = ticks256;
        _hasLast = true;
        _used = 0;
        if (startsRun || interval == 0 || interval > _longest)
        {
            _count = 0;
            early = default;
            return false;
        }

        _intervals[_at] = interval;
        _qualities[_at] = quality;
        _at = (byte)((_at + 1) & (Most - 1));
        _count = (byte)(_count < Most ? _count + 1 : Most);
        return _count >= Least && Decide(isAfterWide, ref early);
    }

    /// <summary>The latest place [1/256 tick].</summary>
    public readonly long LastTicks256 => _last256;

    /// <summary>Whether the intervals that are kept, eight of them, begin after a place.</summary>
    /// <param name="place256">The place [1/256 tick].</param>
    public readonly bool BeginsAfter(long place256)
    {
        int span = 0;
        for (int i = 0; i < Most; i++)
        {
            span += _intervals[i];
        }

        return _count == Most && _last256 - _clock.Ticks256(span) > place256;
    }

    /// <summary>The rate of the intervals that lie in a span of time, as far as they are kept.</summary>
    /// <param name="from256">Begin [1/256 tick].</param>
    /// <param name="until256">End [1/256 tick].</param>
    /// <param name="isSure">Whether the count is beyond doubt: each of these intervals would enter a reading now, and they are six or last three seconds.</param>
    /// <returns>The rate [1/1000 bpm]; 0 when fewer than three intervals lie there.</returns>
    public readonly int RateWithin(long from256, long until256, out bool isSure)
    {
        long end256 = _last256;
        int span = 0;
        int count = 0;
        isSure = true;
        for (int i = 1; i <= _count; i++)
        {
            int interval = _intervals[(_at - i) & (Most - 1)];
            long begin256 = end256 - _clock.Ticks256(interval);
            if (begin256 >= from256 && end256 <= until256)
            {
                span += interval;
                count++;
                isSure &= i <= _used;
            }

            end256 = begin256;
        }

        isSure &= count >= ManyWithin || span >= LeastWithinS * _clock.UnitsPerSecond;
        return count < LeastWithin ? 0 : LongDivision.Rounded(60_000UL * (uint)count * (ulong)_clock.UnitsPerSecond, (uint)span);
    }

    /// <summary>Whether the newest intervals lie within 3/16 of the median: of a few, one that is cut in two or runs to a false beat moves the rate too far.</summary>
    private readonly bool IsAlike(in Word8 recent, int used)
    {
        ReadOnlySpan<int> newest = ((ReadOnlySpan<int>)recent).Slice(_count - used, used);
        int middle = Median.OfUpTo8(newest);
        int near = Shift.Floor(3 * middle, 4);
        for (int i = 0; i < used; i++)
        {
            if (Sat.Abs32(newest[i] - middle) > near)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>
    /// Whether eight intervals that are not alike may be read: they last as long as eight usual ones, but for half of one (among early beats a quarter, when one was
    /// found by looking back); where nothing is usual each beat is sure.
    /// </summary>
    private readonly bool IsBelieved(int span, in EarlyPairs early)
    {
        bool isSure = true;
        for (int i = 0; i < Most; i++)
        {
            isSure &= _qualities[i] > LookedBack;
        }

        int usual = _knownFor > 0 ? _usual : early.Usual;
        if (usual > 0)
        {
            return Sat.Abs32(span - CutPairs(usual, early) - (Most * usual)) <= Shift.Floor(usual, _knownFor > 0 || isSure ? 1 : 2);
        }

        return isSure;
    }

    /// <summary>What eight intervals last longer than as many usual ones because they begin with a pause, its early beat before them, or end with an early beat, its pause to come.</summary>
    private readonly int CutPairs(int usual, in EarlyPairs early)
    {
        int oldest = _intervals[_at];
        int newest = _intervals[(_at - 1) & (Most - 1)];
        bool endsEarly = _isWide && early.Usual > 0 && newest < usual;
        return (early.BeginsWithPause ? oldest - usual : 0) + (endsEarly ? newest - usual : 0);
    }

    private bool Decide(bool isAfterWide, ref EarlyPairs early)
    {
        Word8 recent = default;
        for (int i = 0; i < _count; i++)
        {
            recent[i] = _intervals[(_at - _count + i) & (Most - 1)];
        }

        int used = Regularity.Usable(recent, _count, _knownFor > 0 ? _usual : 0, out int usual, out bool isRegular);
        early.Add(recent[_count - 1], recent[_count - 2], usual, isAfterWide);
        if (isRegular && used == Most)
        {
            _usual = usual;
            _knownFor = KnownFor;
        }
        else if (_knownFor > 0)
        {
            _knownFor--;
        }

        if (used < Least)
        {
            return false;
        }

        if (used < Most && !IsAlike(recent, used))
        {
            return false;
        }

        int span = 0;
        int trust = 0;
        for (int i = _count - used; i < _count; i++)
        {
            span += recent[i];
            trust += _qualities[(_at - _count + i) & (Most - 1)];
        }

        if (used == Most && !isRegular && !IsBelieved(span, early))
        {
            return false;
        }

        _used = (byte)used;

        RateMilliBpm = LongDivision.Rounded(60_000UL * (uint)used * (ulong)_clock.UnitsPerSecond, (uint)span);
        _span = span;
        _end256 = _last256;

        // Eight trusted intervals are worth 255, four of them half; a quarter less when they differ.
        trust = Shift.Floor(trust, 3);
        _quality = (byte)(isRegular ? trust : trust - Shift.Floor(trust, 2));
        return true;
    }
}
