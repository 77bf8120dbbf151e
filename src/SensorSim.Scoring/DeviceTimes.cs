// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Scoring;

/// <summary>Nominal device times of a stream's marks [ns], rounded down.</summary>
/// <remarks>Where a sample, or a tick, lasts whole nanoseconds, as with nearly every rate, a product does for two divisions. The result is the same.</remarks>
internal sealed class DeviceTimes
{
    private readonly StreamFormat _format;
    private readonly Step[] _steps;
    private readonly long _tickNs;

    public DeviceTimes(StreamFormat format)
    {
        _format = format;
        _steps = new Step[format.Channels.Count];
        for (int i = 0; i < _steps.Length; i++)
        {
            _steps[i] = new Step(format.Channels[i].Name, Whole(format.Channels[i].RateHz));
        }

        _tickNs = Whole(format.Clock.TicksPerSecond);
    }

    /// <summary>A mark with all its positions as times.</summary>
    /// <param name="mark">The mark; its channels exist in the format.</param>
    public TimedMark Of(in Mark mark)
    {
        bool isPaired = mark.PairedChannel != Mark.None;
        return new TimedMark
        {
            Channel = _steps[mark.Channel].Name,
            Kind = mark.Kind,
            TimeNs = Ns(mark.Channel, mark.Sample, mark.Fraction256),
            Value = mark.HasValue ? mark.Value : double.NaN,
            PairedChannel = isPaired ? _steps[mark.PairedChannel].Name : ChannelName.Ecg,
            PairedTimeNs = isPaired ? Ns(mark.PairedChannel, mark.PairedSample, mark.PairedFraction256) : null,
            WindowBeginNs = mark.WindowSamples > 0 ? Ns(mark.Channel, mark.Sample - mark.WindowSamples, mark.Fraction256) : null,
            EmittedTimeNs = _tickNs > 0 ? checked(mark.EmittedTick * _tickNs) : _format.Clock.Nanoseconds(mark.EmittedTick),
        };
    }

    // 0 where it is no whole number.
    private static long Whole(long perSecond) =>
        TickClock.NanosecondsPerSecond % perSecond == 0 ? TickClock.NanosecondsPerSecond / perSecond : 0;

    private long Ns(int channel, long sample, int fraction256)
    {
        long step = _steps[channel].Ns;
        return step > 0 ? checked(sample * step) + ((fraction256 * step) >> 8) : _format.DeviceTimeNs(channel, sample, fraction256);
    }

    private readonly record struct Step(ChannelName Name, long Ns);
}
