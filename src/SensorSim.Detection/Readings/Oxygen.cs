// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Oxygen saturation from red and infrared light: ratio of ratios of each pulse, the trimmed mean of eight, a calibration table.</summary>
/// <remarks>
/// <para>
/// Samples are summed to about 25 values a second, high-passed (<see cref="ColourBand"/>) and correlated over one pulse (<see cref="ColourSums"/>). The
/// lowest and the highest quarter of the latest eight ratios are left out. Pulses below 0.1 % of perfusion, whose colours do not beat together, or
/// which are 1.5 times as large as those before them (or as small) are refused: movement makes such, and draws the ratio to its own. Light without that of the room is asked for: what is left of it in one colour moves the reading.
/// </para>
/// Input: codes of 24 bits from the code of no light, room light taken off; a pair at a time.
/// Product: see the stages.
/// Accumulator: 32 bits for sums of up to 20 codes.
/// Worst case: 500 Hz, 20 codes of 24 bits: 29 bits.
/// Output: thousandths of a per cent, 70 to 100 %; about seven long divisions per pulse.
/// </remarks>
public struct Oxygen
{
    /// <summary>Lowest sampling rate [Hz].</summary>
    public const int MinimumRateHz = 25;

    /// <summary>Highest sampling rate [Hz].</summary>
    public const int MaximumRateHz = 500;

    private const int ValuesPerSecond = 25;
    private const int MostValues = 128;
    private const int LevelBits = 18;
    private const int Lowest = 70_000;
    private const int Beyond = 400; // a point on the textbook line
    private const int Point = 1000;
    private const int LowQuality = 63;
    private const int Unusual = 5; // quarters of an octave of power: half as large again
    private const int OddPenalty = 32;
    private const int Most = Half8.Length;
    private const int Least = 4;

    private OxygenTable _table;
    private ColourSums _sums;
    private ColourBand _red;
    private ColourBand _infrared;
    private BeatWindow _window;
    private Half8 _ratios;
    private int _redSum;
    private int _infraredSum;
    private int _milliPercent;
    private short _usual; // power of infrared, 1/64 octave
    private byte _odd;
    private byte _decimation;
    private byte _phase;
    private byte _shift;
    private byte _count;
    private byte _at;
    private byte _quality;
    private bool _isFresh;
    private bool _isWhole;

    /// <summary>The latest value; quality 0 until there was one.</summary>
    public readonly Reading Latest => new(ReadingKind.Spo2, _milliPercent, _quality, _window.End256, _window.Length256(_count));

    /// <summary>Ratio of ratios of the latest pulse that counted [1/10,000].</summary>
    public readonly int Ratio => _ratios[(_at - 1) & (Most - 1)];

    /// <summary>Forgets.</summary>
    /// <param name="rateHz">Sampling rate of both colours [Hz], 25 to 500.</param>
    /// <param name="clock">The common clock.</param>
    /// <param name="table">The calibration, at least two pairs.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int rateHz, CommonClock clock, in OxygenTable table)
    {
        if (rateHz < MinimumRateHz || rateHz > MaximumRateHz || table.Count < 2)
        {
            return false;
        }

        this = default;
        _table = table;
        _window.Start(clock);
        _decimation = (byte)((rateHz + (ValuesPerSecond / 2)) / ValuesPerSecond); // at start-up
        _isFresh = true;
        return true;
    }

    /// <summary>What comes next does not follow what came before: a gap, or the sensor's settings changed. The pulse in it is not judged.</summary>
    public void Restart()
    {
        _isFresh = true;
        _isWhole = false;
        _phase = 0;
        _redSum = 0;
        _infraredSum = 0;
    }

    /// <summary>Takes a pair of samples.</summary>
    /// <param name="red">Red light [codes].</param>
    /// <param name="infrared">Infrared light [codes].</param>
    /// <param name="probe">Sees intermediate values.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next<TProbe>(int red, int infrared, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        _redSum += red;
        _infraredSum += infrared;
        _phase++;
        if (_phase >= _decimation)
        {
            Work(ref probe);
        }
    }

    /// <summary>A pulse was told: what came since the last one makes one ratio.</summary>
    /// <param name="pulse">The pulse, with amplitude and level of infrared.</param>
    /// <param name="ticks256">Its foot [1/256 tick].</param>
    /// <returns>Whether there is a new value.</returns>
    public bool Pulse(in PulseEvent pulse, long ticks256)
    {
        bool isJudged = _isWhole && !pulse.StartsRun && _sums.Count < MostValues && IsStrong(pulse);
        bool isNew = isJudged && IsUsual() && _sums.TryRatio(out int ratio) && Take(ratio, ticks256);
        _shift = (byte)Shift.Needed(_sums.InfraredLevel, LevelBits);
        _sums.Clear();
        _isWhole = !_isFresh;
        return isNew;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Work<TProbe>(ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (_isFresh)
        {
            _isFresh = false;
            _red.Restart(_redSum);
            _infrared.Restart(_infraredSum);
            _sums = default;
        }

        int red = _red.Next(_redSum, _shift);
        int infrared = _infrared.Next(_infraredSum, _shift);
        probe.See(ProbePoint.OxygenRed, red);
        probe.See(ProbePoint.OxygenInfrared, infrared);
        if (_sums.Count < MostValues)
        {
            _sums.Add(red, infrared, _redSum, _infraredSum);
        }

        _redSum = 0;
        _infraredSum = 0;
        _phase = 0;
    }

    /// <summary>At least 0.1 %: 2000 × amplitude ≥ 2 × middle of the light.</summary>
    private static bool IsStrong(in PulseEvent pulse) =>
        pulse.LevelCodes > 0 && 2000L * pulse.AmplitudeCodes >= (2L * pulse.LevelCodes) - pulse.AmplitudeCodes;

    /// <summary>Whether the pulse is about as large as those before it; takes down how often it was not.</summary>
    private bool IsUsual()
    {
        int size = 16 * _sums.Quarters(_shift);
        int off = _usual == 0 ? 0 : size - _usual;
        _usual = (short)(_usual == 0 ? size : _usual + Shift.Round(off, 2));
        bool isOdd = Sat.Abs32(off) > 16 * Unusual;
        _odd = (byte)(((_odd << 1) | (isOdd ? 1 : 0)) & 255);
        return !isOdd;
    }

    private readonly int OddCount()
    {
        int count = 0;
        for (int i = 0; i < 8; i++)
        {
            count += (_odd >>> i) & 1;
        }

        return count;
    }

    private bool Take(int ratio, long ticks256)
    {
        // Saturation is slow: a gap does not end the row, 16 s do.
        _count = _window.Add(ticks256, false) ? _count : (byte)0;
        _ratios[_at] = (ushort)ratio;
        _at = (byte)((_at + 1) & (Most - 1));
        _count = (byte)(_count < Most ? _count + 1 : Most);
        if (_count < Least)
        {
            return false;
        }

        Word8 sorted = default;
        for (int i = 0; i < _count; i++)
        {
            int value = _ratios[(_at - 1 - i) & (Most - 1)];
            int to = i;
            while (to > 0 && sorted[to - 1] > value)
            {
                sorted[to] = sorted[to - 1];
                to--;
            }

            sorted[to] = value;
        }

        int trim = Shift.Floor(_count, 2);
        uint sum = 0;
        for (int i = trim; i < _count - trim; i++)
        {
            sum += (uint)sorted[i];
        }

        int mean = LongDivision.Rounded(sum, (uint)(_count - (2 * trim)));
        int percent = _table.MilliPercent(mean);
        bool isBeyond = percent < Lowest - Point || mean < _table.LowestRatio - Beyond || mean > _table.HighestRatio;
        _milliPercent = percent < Lowest ? Lowest : percent;

        // A point of saturation between the quarters takes 16 off, each odd pulse among the last eight 32; four pulses count half.
        int spread = sorted[_count - 1 - trim] - sorted[trim];
        int quality = 255 - Shift.Floor(spread * 5, 7) - (OddPenalty * OddCount());
        quality = Shift.Floor((quality < 8 ? 8 : quality) * _count, 3);
        _quality = (byte)(isBeyond && quality > LowQuality ? LowQuality : quality);
        return true;
    }
}
