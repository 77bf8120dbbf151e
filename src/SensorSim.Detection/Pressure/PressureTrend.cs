// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pressure;

/// <summary>A gradual change of the pressure over days to weeks, from spot readings: a cumulative sum to both sides of one value a day.</summary>
/// <remarks>
/// The value of a day is the median over four parts of the day (six hours each) of mean spot less the usual value of that part, so
/// that neither many spots on a day nor other hours count as a change. The usual values go on being learned while nothing is told, each day
/// compared with the days before it only (self-starting, Hawkins 1987, from memory): deviation d from the mean of n days has the variance
/// σ² (1 + 1/n), and standardised by it the days are as independent as with a known mean. σ² starts from an assumed value, and is raised
/// by what successive days have in common.
/// Input: 1/1000 mmHg.
/// Product: squares of deviations in 1/16 mmHg, 22 bits.
/// Accumulator: 32 bits unsigned, saturating; 64 bits on the way.
/// Worst case: deviations clip at ±128 mmHg.
/// Output: 1/1000 mmHg, mean deviation since the change began; a few divisions a reading and a day.
/// </remarks>
public struct PressureTrend
{
    private const int Parts = 4;
    private const int SecondsPerDay = 86_400;
    private const int MostDays = 4_095;
    private const int MostDeviation256 = 128 * 256;

    private Cusum _up;
    private Cusum _down;
    private PartValues _usual256;
    private PartValues _today256;
    private PartCounts _days;
    private PartCounts _spots;
    private int _day;
    private uint _squares256;
    private int _products256;
    private short _last16;
    private ushort _dayCount;
    private ushort _rate16;

    /// <summary>Days with readings so far, the present one not counted.</summary>
    public readonly int Days => _dayCount;

    /// <summary>Whether a change is told at present.</summary>
    public bool IsTold { get; private set; }

    /// <summary>Change since it began [1/1000 mmHg]: of the side whose sum is larger; of little worth while nothing is told.</summary>
    public readonly int ChangeMilli => _up.Sum256 >= _down.Sum256 ? ToMilli(_up.Size256) : -ToMilli(_down.Size256);

    /// <summary>First day of the change [days], as far as it can be told; of the side whose sum is larger.</summary>
    public readonly int BeganDay => _up.Sum256 >= _down.Sum256 ? _up.BeganDay : _down.BeganDay;

    /// <summary>Takes a spot reading of systolic or diastolic pressure; one trend for each of them.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="clock">The common clock of the reading.</param>
    /// <param name="spot">The reading.</param>
    /// <param name="heartRate">Heart rate of the same time; a value of 0 when not known.</param>
    /// <param name="localTimeS">Local time [s], so that days end at midnight, not falling; after 1970 or any other day.</param>
    /// <param name="trend">The change, when one is told.</param>
    /// <returns>Whether a day ended with this reading and there is a change to tell.</returns>
    public bool Add(
        in TrendSettings settings, in CommonClock clock, in Reading spot, in Reading heartRate, long localTimeS, out Reading trend)
    {
        trend = default;
        int day = (int)(localTimeS / SecondsPerDay);
        bool isTold = EndDay(settings, day);
        if (isTold)
        {
            long seconds = (long)(day - BeganDay) * SecondsPerDay;
            int strength = LongDivision.Rounded((ulong)Larger() * 128, (uint)settings.Threshold256);
            trend = new Reading(
                ReadingKind.PressureTrend, ChangeMilli, (byte)(strength > 255 ? 255 : strength), spot.Ticks256,
                seconds * 256 * clock.TicksPerSecond);
        }

        if (spot.Quality >= settings.LeastQuality && IsAtRest(settings, heartRate))
        {
            int part = (int)((localTimeS - ((long)day * SecondsPerDay)) / (SecondsPerDay / Parts));
            int milli = spot.ValueMilli - (int)((long)settings.PerBpmMilli * AboveUsual16(heartRate) / 16);
            int value256 = ToQ8(milli);
            int count = _spots[part] < 255 ? _spots[part] + 1 : 255;
            _spots[part] = (byte)count;
            _today256[part] += (value256 - _today256[part]) / count;
        }

        LearnRate(heartRate);
        return isTold;
    }

    /// <summary>Ends the days before a day; called by <see cref="Add"/>, and by whoever wants to know without a new reading.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="day">The day that has begun.</param>
    /// <returns>Whether a day with readings ended and there is a change to tell.</returns>
    public bool EndDay(in TrendSettings settings, int day)
    {
        if (day <= _day)
        {
            return false;
        }

        bool hasValue = DayValue(out int deviation256, out int days);
        if (hasValue)
        {
            Judge(settings, deviation256, days);
        }

        LearnDay();
        _day = day;
        _today256 = default;
        _spots = default;
        return hasValue && IsTold;
    }

    // Median over the parts of the day that have readings and a usual value; how many days the usual values stand on, on average.
    private readonly bool DayValue(out int deviation256, out int days)
    {
        Word8 deviations = default;
        int count = 0;
        days = 0;
        for (int i = 0; i < Parts; i++)
        {
            if (_spots[i] > 0 && _days[i] > 0)
            {
                deviations[count++] = Sat.Narrow(_today256[i] - _usual256[i], MostDeviation256);
                days += _days[i];
            }
        }

        deviation256 = count == 0 ? 0 : Median.OfUpTo8(((ReadOnlySpan<int>)deviations)[..count]);
        days = count == 0 ? 0 : days / count;
        return count > 0;
    }

    private void Judge(in TrendSettings settings, int deviation256, int days)
    {
        // Root of the variance in (1/16 mmHg)², with 8 more bits below, is in 1/256 mmHg.
        ulong scaled = (Variance(settings) << 8) * (ulong)(days + 1) / (ulong)days;
        int sd256 = (int)IntegerRoot.Floor(scaled > uint.MaxValue ? uint.MaxValue : (uint)scaled);
        int standardised = Sat.Narrow((deviation256 * 256) / (sd256 < 16 ? 16 : sd256), 64 * 256);
        if (_dayCount + 1 >= settings.LearningDays)
        {
            int most = settings.Threshold256 + (2 * 256);
            _up.Add(standardised, deviation256, settings.Allowance256, most, _day);
            _down.Add(-standardised, -deviation256, settings.Allowance256, most, _day);
        }

        IsTold = Larger() > settings.Threshold256;
        if (!IsTold)
        {
            int deviation16 = Shift.Round(deviation256, 4);
            ulong sum = _squares256 + ((ulong)((long)deviation16 * deviation16) * (ulong)days / (ulong)(days + 1));
            bool isFull = sum > int.MaxValue || _dayCount >= MostDays;
            _squares256 = isFull ? _squares256 : (uint)sum;
            _products256 = isFull ? _products256 : Sat.Add32(_products256, _last16 * deviation16);
            _dayCount += (ushort)(isFull ? 0 : 1);
            _last16 = (short)deviation16;
        }
    }

    // Variance of a day [(1/16 mmHg)²], as large as independent days must have for their sums to scatter like these: times (1 + φ)/(1 − φ),
    // with φ the correlation of one day with the next, learned as well, up to a half.
    private readonly ulong Variance(in TrendSettings settings)
    {
        long assumed = (long)settings.FirstSd16 * settings.FirstSd16 * settings.FirstSdDays;
        long squares = assumed + _squares256;
        long most = squares / 2;
        long products = _products256 < 0 ? 0 : _products256 > most ? most : _products256;
        ulong variance = (ulong)squares / (ulong)(settings.FirstSdDays + _dayCount);
        return variance * (ulong)((squares + products) >> 8) / (ulong)((squares - products + 256) >> 8);
    }

    // The usual values follow the day by its share of all days; a part of the day that is new is taken as it is.
    private void LearnDay()
    {
        int known = 0;
        int moved = 0;
        for (int i = 0; i < Parts; i++)
        {
            known += _days[i] > 0 ? 1 : 0;
            if (_spots[i] == 0 || (IsTold && _days[i] > 0))
            {
                continue;
            }

            int count = _days[i] < 255 ? _days[i] + 1 : 255;
            int by = count == 1 ? 0 : Sat.Narrow(_today256[i] - _usual256[i], MostDeviation256) / count;
            _usual256[i] = count == 1 ? _today256[i] - (IsTold ? ToldShift() : 0) : _usual256[i] + by;
            _days[i] = (byte)count;
            moved += by;
        }

        if (known > 0 && moved != 0)
        {
            _up.Move(moved / known);
            _down.Move(-moved / known);
        }
    }

    private readonly int ToldShift() => _up.Sum256 >= _down.Sum256 ? _up.Size256 : -_down.Size256;

    private readonly int Larger() => _up.Sum256 >= _down.Sum256 ? _up.Sum256 : _down.Sum256;

    private readonly bool IsAtRest(in TrendSettings settings, in Reading heartRate) =>
        !HasRate(heartRate) || _rate16 == 0 || AboveUsual16(heartRate) <= settings.RestMarginBpm * 16;

    private readonly int AboveUsual16(in Reading heartRate) => HasRate(heartRate) && _rate16 > 0 ? Rate16(heartRate) - _rate16 : 0;

    // Falls an eighth of the way, rises a thirty-second: what is usual is the rate at rest.
    private void LearnRate(in Reading heartRate)
    {
        if (HasRate(heartRate))
        {
            int off = Rate16(heartRate) - _rate16;
            _rate16 = (ushort)(_rate16 == 0 ? Rate16(heartRate) : _rate16 + Shift.Round(off, off < 0 ? 3 : 5));
        }
    }

    private static bool HasRate(in Reading heartRate) =>
        heartRate.Kind <= ReadingKind.HeartRateFused && heartRate.Quality > 0 && heartRate.ValueMilli is > 0 and <= 400_000;

    private static int Rate16(in Reading heartRate) => heartRate.ValueMilli * 16 / 1000;

    private static int ToQ8(int milli) => (int)(((long)Sat.Narrow(milli, 1_000_000) * 256) / 1000);

    private static int ToMilli(int q8) => (int)((long)q8 * 1000 / 256);

    [InlineArray(Parts)]
    private struct PartValues
    {
        private int _first;
    }

    [InlineArray(Parts)]
    private struct PartCounts
    {
        private byte _first;
    }
}
