// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Detectors;

/// <summary>The project's own fixed-point library behind the detector contract.</summary>
/// <remarks>
/// Beats come from the ECG channel; pulses from infrared, without it from red, else from green. Either signal may be missing. Each channel
/// is worked through stretch by stretch, but its events are merged in (tick, channel number) order, so the cuts of the stream do not show.
/// Samples whose status says lead-off, saturated or over range count as a gap.
/// </remarks>
public sealed class LibraryDetector : LibraryDetector<NoProbe>
{
}

/// <summary>The library with a place for a probe that sees its intermediate values; the marks are the same with any.</summary>
/// <typeparam name="TProbe">What sees them; <see cref="NoProbe"/> costs nothing.</typeparam>
public abstract class LibraryDetector<TProbe> : IDetector
    where TProbe : struct, IProbe
{
    private TProbe _probe;
    private BeatDetector _beats;
    private PulseDetector _pulses;
    private HeartRate _heartRate;
    private Arrival _arrival;
    private ChannelCursor _ecg;
    private ChannelCursor _optical;
    private MarkWriter _writer;
    private ChannelName _light;

    /// <summary>The probe, in place.</summary>
    public ref TProbe Probe => ref _probe;

    /// <inheritdoc/>
    public string Name => "sensorsim 0.1";

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        int ecg = format.IndexOf(ChannelName.Ecg);
        int optical = OpticalChannel(format);
        if (ecg < 0 && optical < 0)
        {
            throw new NotSupportedException("The stream has neither ecg nor red, infrared or green; the library needs one of them.");
        }

        if (ecg >= 0 && !_beats.Start(format.Channels[ecg].RateHz))
        {
            throw new NotSupportedException(
                $"Channel ecg has {format.Channels[ecg].RateHz} Hz; the library works from {BeatWindows.MinimumRateHz} to {BeatWindows.MaximumRateHz} Hz.");
        }

        if (optical >= 0 && !_pulses.Start(format.Channels[optical].RateHz, format.Channels[optical].Polarity))
        {
            ChannelFormat channel = format.Channels[optical];
            throw new NotSupportedException(
                $"Channel {channel.Name.Text()} has {channel.RateHz} Hz; the library works from {PulseWindows.MinimumRateHz} to {PulseWindows.MaximumRateHz} Hz.");
        }

        _light = optical < 0 ? default : format.Channels[optical].Name;
        _ecg = new ChannelCursor(ecg, ecg < 0 ? 1 : format.TicksPerSample(ecg));
        _optical = new ChannelCursor(optical, optical < 0 ? 1 : format.TicksPerSample(optical));
        _heartRate.Start(ecg < 0 ? 1 : format.Channels[ecg].RateHz);
        _arrival.Start(format.Clock.TicksPerSecond, _ecg.TicksPerSample, _optical.TicksPerSample, DelayTicks256(format, ecg, optical));
        _writer = new MarkWriter(format, ecg, optical);
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        _ecg.Begin();
        _optical.Begin();
        bool hasBeat = NextBeat(block);
        bool hasPulse = NextPulse(block);
        while (hasBeat || hasPulse)
        {
            if (hasBeat && (!hasPulse || IsBeatFirst()))
            {
                GiveBeat(output, _ecg.EventTick + 1);
                hasBeat = NextBeat(block);
            }
            else
            {
                GivePulse(output, _optical.EventTick + 1);
                hasPulse = NextPulse(block);
            }
        }

        _writer.EndTick = block.EndTick;
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        if (_ecg.Channel >= 0 && _beats.Flush())
        {
            GiveBeat(output, _writer.EndTick);
        }
    }

    /// <summary>Nothing to let go of.</summary>
    public void Dispose() => GC.SuppressFinalize(this);

    private static int OpticalChannel(StreamFormat format)
    {
        int infrared = format.IndexOf(ChannelName.Infrared);
        int red = format.IndexOf(ChannelName.Red);
        return infrared >= 0 ? infrared : red >= 0 ? red : format.IndexOf(ChannelName.Green);
    }

    /// <summary>Difference of the declared delays in 1/256 tick, rounded to nearest.</summary>
    private static long DelayTicks256(StreamFormat format, int ecg, int optical)
    {
        if (ecg < 0 || optical < 0)
        {
            return 0;
        }

        long delayNs = format.Channels[optical].DeclaredDelayNs - format.Channels[ecg].DeclaredDelayNs;
        return (long)Math.Round((decimal)delayNs * 256 * format.Clock.TicksPerSecond / TickClock.NanosecondsPerSecond);
    }

    /// <summary>What the stages get at once, after the probe was told of it.</summary>
    private ReadOnlySpan<int> Seen(ReadOnlySpan<int> codes, ChannelName channel, long index)
    {
        _probe.At((int)channel, index);
        return codes[..Math.Min(codes.Length, _probe.MostAtOnce)];
    }

    private bool IsBeatFirst() =>
        _ecg.EventTick < _optical.EventTick || (_ecg.EventTick == _optical.EventTick && _ecg.Channel < _optical.Channel);

    private bool NextBeat(SampleBlock block)
    {
        while (_ecg.TryNext(block, out ReadOnlySpan<int> codes, out bool afterGap))
        {
            if (afterGap)
            {
                // What was held back is decided before the gap; the tick of its emission is that of the first sample after it.
                bool isHeld = _beats.Flush();
                _beats.Restart(_ecg.Index);
                if (isHeld)
                {
                    _ecg.MarkEvent();
                    return true;
                }
            }

            int taken = _beats.Take(Seen(codes, ChannelName.Ecg, _ecg.Index), default, ref _probe, out bool found);
            _ecg.Advance(taken);
            if (found)
            {
                _ecg.MarkEvent();
                return true;
            }
        }

        return false;
    }

    private bool NextPulse(SampleBlock block)
    {
        while (_optical.TryNext(block, out ReadOnlySpan<int> codes, out bool afterGap))
        {
            if (afterGap)
            {
                _pulses.Restart(_optical.Index);
            }

            int taken = _pulses.Take(Seen(codes, _light, _optical.Index), ref _probe, out bool found);
            _optical.Advance(taken);
            if (found)
            {
                _optical.MarkEvent();
                return true;
            }
        }

        return false;
    }

    private void GiveBeat(DetectorOutput output, long emittedTick)
    {
        BeatEvent beat = _beats.Event;
        _writer.Beat(output, beat, emittedTick);
        if (_heartRate.Add(beat))
        {
            _writer.Rate(output, beat, _heartRate, emittedTick);
        }

        if (_optical.Channel >= 0 && _arrival.AddRPeak(beat.RPeak))
        {
            _writer.ArrivalTime(output, _arrival, emittedTick);
        }
    }

    private void GivePulse(DetectorOutput output, long emittedTick)
    {
        PulseEvent pulse = _pulses.Event;
        _writer.Pulse(output, pulse, emittedTick);
        if (_ecg.Channel >= 0 && _arrival.AddFoot(pulse.Foot))
        {
            _writer.ArrivalTime(output, _arrival, emittedTick);
        }
    }
}
