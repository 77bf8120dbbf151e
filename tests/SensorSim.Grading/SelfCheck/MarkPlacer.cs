// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.SelfCheck;

/// <summary>Makes marks of body times: sample positions with the declared delay, as a detector would give them.</summary>
internal sealed class MarkPlacer
{
    private readonly StreamFormat _format;

    /// <summary>Creates one.</summary>
    /// <param name="format">Format of a stream whose clocks are right.</param>
    /// <param name="endNs">Its end [ns].</param>
    public MarkPlacer(StreamFormat format, long endNs)
    {
        _format = format;
        EndNs = endNs;
    }

    /// <summary>End of the stream [ns].</summary>
    public long EndNs { get; }

    /// <summary>Adds a mark.</summary>
    /// <param name="output">Takes it.</param>
    /// <param name="channel">Channel of the stream.</param>
    /// <param name="kind">Kind.</param>
    /// <param name="timeNs">Body time [ns].</param>
    /// <param name="emittedNs">When it is told [ns].</param>
    /// <param name="value">Value in the kind's unit; NaN for none.</param>
    /// <param name="windowNs">How far its window reaches back [ns].</param>
    /// <param name="pairedNs">Body time of its R peak [ns]; null for none.</param>
    public void Add(
        DetectorOutput output, ChannelName channel, MarkKind kind, long timeNs, long emittedNs, double value = double.NaN, long windowNs = 0, long? pairedNs = null)
    {
        if (emittedNs > EndNs)
        {
            return;
        }

        int number = _format.IndexOf(channel);
        int ecg = _format.IndexOf(ChannelName.Ecg);
        long place = Place256(number, timeNs);
        long paired = pairedNs is long p ? Place256(ecg, p) : 0;
        long window = (long)Math.Round(windowNs * 1e-9 * _format.Channels[number].RateHz);
        if (place < window * 256 || paired < 0)
        {
            // It began before the first sample: no detector has seen that.
            return;
        }

        output.Marks.Add(new Mark
        {
            Channel = number,
            Kind = kind,
            Sample = place >> 8,
            Fraction256 = (byte)place,
            HasValue = !double.IsNaN(value),
            ValueMilli = double.IsNaN(value) ? 0 : (int)Math.Round(value * 1000),
            Quality = 255,
            EmittedTick = _format.Clock.TickAtOrAfter(emittedNs * 1e-9),
            WindowSamples = window,
            PairedChannel = pairedNs is null ? Mark.None : ecg,
            PairedSample = paired >> 8,
            PairedFraction256 = (byte)paired,
        });
    }

    private long Place256(int channel, long bodyNs) =>
        (long)Math.Round((bodyNs + _format.Channels[channel].DeclaredDelayNs) * 1e-9 * _format.Channels[channel].RateHz * 256);
}
