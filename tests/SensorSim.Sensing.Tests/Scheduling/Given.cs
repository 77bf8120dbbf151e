// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Scheduling;

/// <summary>What a stream with changing settings gave: index, code and status of each sample, and what the acquisition told.</summary>
internal sealed class Given
{
    private readonly List<(long Index, int Code, ushort Status)>[] _samples;

    private Given(StreamFormat format)
    {
        Format = format;
        _samples = [.. format.Channels.Select(_ => new List<(long, int, ushort)>())];
    }

    public StreamFormat Format { get; }

    public List<AcquisitionEvent> Events { get; } = [];

    public IReadOnlyList<(long Index, int Code, ushort Status)> this[ChannelName name] => _samples[Format.IndexOf(name)];

    public static Given Of(KeyValues values, double seconds, params SettingChange[] settings) =>
        OfRest(new SensorStream(values, 7, seconds, settings), long.MaxValue);

    /// <summary>What is left of a stream, in blocks of the given lengths [ticks], over and over.</summary>
    public static Given OfRest(SensorStream stream, params long[] cuts)
    {
        var given = new Given(stream.Format);
        var block = new SampleBlock(stream.Format, Math.Min(cuts.Max(), 10 * stream.Format.Clock.TicksPerSecond));
        for (int i = 0; stream.PositionTick < stream.EndTick; i++)
        {
            long length = Math.Min(cuts[i % cuts.Length], block.MaximumTicks);
            given.Take(stream, block, Math.Min(stream.EndTick, stream.PositionTick + length));
        }

        return given;
    }

    public static Given OfPart(SensorStream stream, long untilTick)
    {
        var given = new Given(stream.Format);
        given.Take(stream, new SampleBlock(stream.Format, untilTick - stream.PositionTick), untilTick);
        return given;
    }

    public Given Then(Given after)
    {
        var both = new Given(Format);
        for (int c = 0; c < _samples.Length; c++)
        {
            both._samples[c].AddRange([.. _samples[c], .. after._samples[c]]);
        }

        return both;
    }

    public void AssertSameAs(Given other, string what)
    {
        for (int c = 0; c < _samples.Length; c++)
        {
            Assert.That(_samples[c].SequenceEqual(other._samples[c]), $"{what}, {Format.Channels[c].Name}");
        }
    }

    private void Take(SensorStream stream, SampleBlock block, long untilTick)
    {
        stream.Read(block, untilTick);
        for (int c = 0; c < _samples.Length; c++)
        {
            ChannelBlock channel = block.Channels[c];
            foreach (SampleRun run in channel.Runs)
            {
                for (int i = 0; i < run.Count; i++)
                {
                    _samples[c].Add((run.FirstIndex + i, channel.Codes[run.Offset + i], channel.Status[run.Offset + i]));
                }
            }
        }

        while (stream.Acquisition.TryTake(out AcquisitionEvent e))
        {
            Events.Add(e);
        }

        while (stream.Truth.TryTake(out _))
        {
            // Only room is made.
        }
    }
}
