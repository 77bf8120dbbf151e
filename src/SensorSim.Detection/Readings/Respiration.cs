// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Breathing rate from what breathing does to the beats: their intervals, the size of the pulse, the level of the light; every 5 s.</summary>
/// <remarks>
/// <para>
/// Three series (Karlen et al. 2013: frequency, amplitude and intensity; from memory). Intervals are those of the ECG, or of the pulses while there is none;
/// sizes are those of the pulse, or of the R peak. Each gives its strongest rate over 32 s. A rate is given only when at least two series agree within
/// 3 per minute, all clear (half of the power round one rate; of two alone two thirds): slow waves of the rate near 6 per minute are in the intervals only. When a clear series says more than 7/16 of the
/// heart rate there is none: from half on, beats cannot tell a rate from a slower one.
/// </para>
/// Input: places in 1/256 tick, amplitudes and levels of 24 bits.
/// Product: rate × clarity, 25 bits.
/// Accumulator: 32 bits.
/// Worst case: all at 40 per minute.
/// Output: thousandths of a breath per minute, 4 to 40.
/// </remarks>
public struct Respiration
{
    private const int StepsPerReading = 10;
    private const int LongestS = 5;
    private const int NearMilli = 3000;
    private const int LeastClarity = 128;
    private const int LeastOfTwo = 340;
    private const int IntervalsPerSecond = 4096;

    private BreathSeries _intervals;
    private BreathSeries _sizes;
    private BreathSeries _levels;
    private BeatClock _clock;
    private CommonClock _common;
    private long _beat256;
    private long _pulse256;
    private long _end256;
    private int _rateMilli;
    private byte _made;
    private byte _quality;
    private bool _hasBeat;
    private bool _hasPulse;

    /// <summary>The latest value; quality 0 until there was one.</summary>
    public readonly Reading Latest => new(ReadingKind.RespirationRate, _rateMilli, _quality, _end256, _common.TicksPerSecond * 256 * 32);

    private readonly long Step256 => _common.TicksPerSecond * 128;

    /// <summary>Forgets.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        this = default;
        _common = clock;
        _clock.Start(clock);
    }

    /// <summary>Takes a beat of the ECG.</summary>
    /// <param name="ticks256">Its R peak [1/256 tick].</param>
    /// <param name="startsRun">Whether there is no interval to it.</param>
    /// <param name="amplitudeCodes">Size of the R peak, any sign [codes].</param>
    /// <returns>Whether there is a new value.</returns>
    public bool AddBeat(long ticks256, bool startsRun, int amplitudeCodes)
    {
        bool isInterval = _hasBeat && !startsRun;
        long before256 = _beat256;
        _beat256 = ticks256;
        _hasBeat = true;
        if (!IsRecent(_hasPulse, _pulse256, ticks256))
        {
            AddSize(ticks256, Sat.Abs32(amplitudeCodes));
        }

        return isInterval && AddInterval(before256, ticks256);
    }

    /// <summary>Takes a pulse.</summary>
    /// <param name="ticks256">Its foot [1/256 tick].</param>
    /// <param name="startsRun">Whether there is no interval to it.</param>
    /// <param name="amplitudeCodes">Size of the pulse [codes].</param>
    /// <param name="levelCodes">Light at its minimum [codes].</param>
    /// <returns>Whether there is a new value.</returns>
    public bool AddPulse(long ticks256, bool startsRun, int amplitudeCodes, int levelCodes)
    {
        bool isInterval = _hasPulse && !startsRun;
        long before256 = _pulse256;
        _pulse256 = ticks256;
        _hasPulse = true;
        AddSize(ticks256, amplitudeCodes);
        _levels.Add(ticks256, Step256, levelCodes, 2 * _sizes.Mean);
        return isInterval && !IsRecent(_hasBeat, _beat256, ticks256) && AddInterval(before256, ticks256);
    }

    /// <summary>The settings of the sensor changed: sizes and levels of before do not compare.</summary>
    public void Step()
    {
        _sizes.Restart();
        _levels.Restart();
    }

    private readonly bool IsRecent(bool hasOne, long one256, long now256) =>
        hasOne && now256 - one256 <= _common.TicksPerSecond * 256 * LongestS;

    private void AddSize(long ticks256, int amplitudeCodes) => _sizes.Add(ticks256, Step256, amplitudeCodes, _sizes.Mean);

    private bool AddInterval(long before256, long ticks256)
    {
        int interval = _clock.Steps(_clock.Span(before256, ticks256), IntervalsPerSecond);
        int made = _intervals.Add(ticks256, Step256, interval, Shift.Round(_intervals.Mean, 1));
        // Where rows break off again and again, values are made without end and never judged: the count stops.
        _made = (byte)(_made + made < byte.MaxValue ? _made + made : byte.MaxValue);
        if (_made < StepsPerReading || !_intervals.IsFull)
        {
            return false;
        }

        _made = 0;
        return Decide(ticks256);
    }

    private bool Decide(long now256)
    {
        // 7/16 of the heart rate: 60 × 4096 × 7 / (16 × interval).
        int highestMilli = LongDivision.Rounded(60_000 * 7 / 16 * IntervalsPerSecond, (uint)(_intervals.Mean < 1 ? 1 : _intervals.Mean));
        BreathSpectrum first = Look(_intervals, now256);
        BreathSpectrum second = Look(_sizes, now256);
        BreathSpectrum third = Look(_levels, now256);

        if (first.RateMilli > highestMilli || second.RateMilli > highestMilli || third.RateMilli > highestMilli)
        {
            return false;
        }

        // The rate that most clear power agrees with; the others count if they are near it.
        int sumFirst = Agreeing(first, first, second, third, out int rateFirst);
        int sumSecond = Agreeing(second, first, second, third, out int rateSecond);
        int sumThird = Agreeing(third, first, second, third, out int rateThird);
        int sum = sumFirst >= sumSecond ? sumFirst : sumSecond;
        int rate = sumFirst >= sumSecond ? rateFirst : rateSecond;
        rate = sumThird > sum ? rateThird : rate;
        sum = sumThird > sum ? sumThird : sum;
        if (sum == 0)
        {
            return false;
        }

        // Three clear series that agree are worth 255, two about two thirds; a clear one that does not agree takes its share off again.
        int against = first.Clarity + second.Clarity + third.Clarity - sum;
        int quality = LongDivision.Rounded((ulong)(uint)(sum > against ? sum - against : 1), 3);
        _quality = (byte)(quality < 1 ? 1 : quality);
        _rateMilli = rate;
        _end256 = now256;
        return true;
    }

    private readonly BreathSpectrum Look(in BreathSeries series, long now256)
    {
        BreathSpectrum none = default;
        if (!series.IsFull || !IsRecent(true, series.Next256, now256))
        {
            return none;
        }

        BreathSpectrum found = BreathSpectrum.Of(series);
        return found.Clarity >= LeastClarity ? found : none;
    }

    /// <summary>Clarity of all that agree with one, and their mean rate weighted by it; 0 when nothing does.</summary>
    private static int Agreeing(in BreathSpectrum one, in BreathSpectrum first, in BreathSpectrum second, in BreathSpectrum third, out int rateMilli)
    {
        long weighted = 0;
        int sum = 0;
        int count = 0;
        rateMilli = 0;
        AddIfNear(one, first, ref weighted, ref sum, ref count);
        AddIfNear(one, second, ref weighted, ref sum, ref count);
        AddIfNear(one, third, ref weighted, ref sum, ref count);
        if (count < 2 || (count == 2 && sum < LeastOfTwo))
        {
            return 0;
        }

        rateMilli = LongDivision.Rounded((ulong)weighted, (uint)sum);
        return sum;
    }

    private static void AddIfNear(in BreathSpectrum one, in BreathSpectrum other, ref long weighted, ref int sum, ref int count)
    {
        if (one.Clarity > 0 && other.Clarity > 0 && Sat.Abs32(one.RateMilli - other.RateMilli) <= NearMilli)
        {
            weighted += (long)other.RateMilli * other.Clarity;
            sum += other.Clarity;
            count++;
        }
    }
}
