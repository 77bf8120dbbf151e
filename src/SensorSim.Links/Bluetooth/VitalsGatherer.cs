// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Bluetooth;

/// <summary>Gathers the marks of a detector and makes values of Bluetooth characteristics of them, as a wearable would. Allocates nothing per mark.</summary>
/// <remarks>
/// Heart rate: the one from all steady signals, and as long as there is none the one of the ECG. RR intervals: from one R peak to the next, not over a
/// time in which the gate of the ECG was shut, nor longer than <see cref="LongestIntervalS"/>. A reading counts for
/// <see cref="ReadingLifeS"/>. Both limits are choices of this project.
/// </remarks>
public sealed class VitalsGatherer
{
    /// <summary>How long a reading counts [s].</summary>
    public const int ReadingLifeS = 10;

    /// <summary>Longest time between two R peaks that is told as an interval [s].</summary>
    public const int LongestIntervalS = 4;

    /// <summary>Saturations of a quality below this are told as questionable. A choice of this project.</summary>
    public const int QuestionableBelow = 128;

    /// <summary>Intervals that wait at most; the oldest ones go first.</summary>
    public const int WaitingIntervals = 64;

    private const int Tenths = -1;

    private readonly StreamFormat _format;
    private readonly ushort[] _intervals = new ushort[WaitingIntervals];
    private int _waiting;
    private long? _lastPeak256;
    private long _now;
    private Reading _heart;
    private Reading _heartFused;
    private Reading _pulse;
    private Reading _saturation;
    private Reading _perfusion;
    private Reading _systolic;
    private Reading _diastolic;
    private Reading _mean;

    /// <summary>Creates a gatherer.</summary>
    /// <param name="format">The stream that the marks are of.</param>
    public VitalsGatherer(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _format = format;
    }

    /// <summary>Intervals that found no room and are lost.</summary>
    public long IntervalsLost { get; private set; }

    /// <summary>Whether the sensor touches the skin, as the caller knows it.</summary>
    public SkinContact Contact { get; set; }

    private long LifeTicks => ReadingLifeS * _format.Clock.TicksPerSecond;

    /// <summary>Takes a mark; in the order in which the detector gave them.</summary>
    /// <param name="mark">The mark.</param>
    public void Take(in Mark mark)
    {
        Advance(mark.EmittedTick);
        var reading = new Reading(mark.HasValue, mark.ValueMilli, mark.EmittedTick, mark.Quality);
        ChannelName channel = _format.Channels[mark.Channel].Name;
        bool isLight = channel is ChannelName.Red or ChannelName.Infrared or ChannelName.Green;
        switch (mark.Kind)
        {
            case MarkKind.RPeak:
                TakePeak(mark);
                break;
            case MarkKind.GateShut when channel == ChannelName.Ecg:
                _lastPeak256 = null;
                break;
            case MarkKind.HeartRateBpm when channel == ChannelName.Ecg:
                _heart = reading;
                break;
            case MarkKind.HeartRateBpm when isLight:
                _pulse = reading;
                break;
            case MarkKind.HeartRateFusedBpm:
                _heartFused = reading;
                break;
            case MarkKind.Spo2Percent:
                _saturation = reading;
                break;
            case MarkKind.PerfusionIndexPercent:
                _perfusion = reading;
                break;
            case MarkKind.SystolicMmhg:
                _systolic = reading;
                break;
            case MarkKind.DiastolicMmhg:
                _diastolic = reading;
                break;
            case MarkKind.MeanMmhg:
                _mean = reading;
                break;
        }
    }

    /// <summary>Says how far the stream has come, so that old readings end without a mark.</summary>
    /// <param name="tick">The tick.</param>
    public void Advance(long tick) => _now = Math.Max(_now, tick);

    /// <summary>Writes a Heart Rate Measurement with the intervals that wait, as many as fit; the others go next time.</summary>
    /// <param name="value">Receives it; at least 4 bytes.</param>
    /// <returns>Bytes written; 0 when there is no rate.</returns>
    public int WriteHeartRate(Span<byte> value)
    {
        Reading rate = IsCurrent(_heartFused) ? _heartFused : _heart;
        if (!IsCurrent(rate) || rate.Milli < 0)
        {
            return 0;
        }

        var measurement = new HeartRateMeasurement((int)Math.Min(ushort.MaxValue, (rate.Milli + 500L) / 1000)) { Contact = Contact };
        int count = Math.Min(_waiting, measurement.IntervalRoom(value.Length));
        int length = measurement.Write(_intervals.AsSpan(0, count), value);
        _waiting -= count;
        _intervals.AsSpan(count, _waiting).CopyTo(_intervals);
        return length;
    }

    /// <summary>Writes a PLX Continuous Measurement: saturation and pulse rate to a tenth, and the perfusion index as pulse amplitude.</summary>
    /// <param name="value">Receives it; <see cref="OximeterContinuous.MaximumBytes"/> always do.</param>
    /// <returns>Bytes written; 0 when there is no saturation.</returns>
    public int WriteOximeter(Span<byte> value)
    {
        if (!IsCurrent(_saturation))
        {
            return 0;
        }

        OximeterStatus status = OximeterStatus.Ongoing | (_saturation.Quality < QuestionableBelow ? OximeterStatus.Questionable : 0);
        return new OximeterContinuous(new OximeterPair(Number(_saturation), Number(_pulse)))
        {
            Status = (ushort)status,
            AmplitudePercent = IsCurrent(_perfusion) ? Number(_perfusion) : null,
        }.Write(value);
    }

    /// <summary>Writes a PLX Spot-check Measurement of the same readings.</summary>
    /// <param name="time">When it was measured; null: not told.</param>
    /// <param name="value">Receives it; <see cref="OximeterSpotCheck.MaximumBytes"/> always do.</param>
    /// <returns>Bytes written; 0 when there is no saturation.</returns>
    public int WriteSpotCheck(DeviceTime? time, Span<byte> value)
    {
        return !IsCurrent(_saturation) ? 0 : new OximeterSpotCheck(Number(_saturation), Number(_pulse))
        {
            Time = time,
            Status = _saturation.Quality < QuestionableBelow ? (ushort)OximeterStatus.Questionable : null,
            AmplitudePercent = IsCurrent(_perfusion) ? Number(_perfusion) : null,
        }.Write(value);
    }

    /// <summary>Writes a Blood Pressure Measurement in mmHg, each pair of pressures once; a mean that is not told is no number.</summary>
    /// <param name="time">When it was measured; null: not told.</param>
    /// <param name="value">Receives it; <see cref="BloodPressureMeasurement.MaximumBytes"/> always do.</param>
    /// <returns>Bytes written; 0 when there is no new pair.</returns>
    public int WriteBloodPressure(DeviceTime? time, Span<byte> value)
    {
        if (!IsCurrent(_systolic) || !IsCurrent(_diastolic))
        {
            return 0;
        }

        int length = new BloodPressureMeasurement(Number(_systolic), Number(_diastolic), Number(_mean))
        {
            Time = time,
            PulseRateBpm = IsCurrent(_pulse) ? Number(_pulse) : null,
        }.Write(value);
        (_systolic, _diastolic, _mean) = (default, default, default);
        return length;
    }

    private void TakePeak(in Mark mark)
    {
        long place = mark.Position256;
        long rate = _format.Channels[mark.Channel].RateHz;
        if (_lastPeak256 is long last && place > last && place - last <= LongestIntervalS * 256 * rate)
        {
            if (_waiting == WaitingIntervals)
            {
                _intervals.AsSpan(1).CopyTo(_intervals);
                _waiting--;
                IntervalsLost++;
            }

            // 1/256 of a sampling interval in 1/1024 s, halves up.
            _intervals[_waiting++] = (ushort)(((place - last) * HeartRateMeasurement.IntervalUnitsPerSecond * 2 / 256 + rate) / (2 * rate));
        }

        _lastPeak256 = place;
    }

    private bool IsCurrent(in Reading reading) => reading.IsThere && _now - reading.Tick <= LifeTicks;

    private SFloat Number(in Reading reading) => IsCurrent(reading) ? SFloat.FromMilli(reading.Milli, Tenths) : SFloat.NotANumber;

    private readonly record struct Reading(bool IsThere, int Milli, long Tick, byte Quality);
}
