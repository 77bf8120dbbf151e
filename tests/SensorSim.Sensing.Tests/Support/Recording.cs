// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>What a stream gave: codes and status words of every channel, and truth.</summary>
internal sealed class Recording
{
    private readonly List<int>[] _codes;
    private readonly List<ushort>[] _status;
    private readonly List<long>[] _indices;

    private Recording(StreamFormat format)
    {
        Format = format;
        _codes = [.. format.Channels.Select(_ => new List<int>())];
        _status = [.. format.Channels.Select(_ => new List<ushort>())];
        _indices = [.. format.Channels.Select(_ => new List<long>())];
    }

    public StreamFormat Format { get; }

    public List<TruthEvent> Truth { get; } = [];

    /// <summary>What the acquisition told, as it came; with stretches in pieces.</summary>
    public List<AcquisitionEvent> Told { get; } = [];

    /// <summary>Records a new stream from its start, in blocks of so many ticks; 0 stands for blocks of ten seconds.</summary>
    public static Recording Of(KeyValues values, double seconds, ulong seed = 7, long blockTicks = 0)
    {
        var stream = new SensorStream(values, seed, seconds);
        long ticks = blockTicks == 0 ? 10 * stream.Format.Clock.TicksPerSecond : blockTicks;
        return OfRest(stream, [ticks]);
    }

    /// <summary>Records what is left of a stream, in blocks of the given lengths [ticks], over and over.</summary>
    public static Recording OfRest(SensorStream stream, params long[] cuts)
    {
        var recording = new Recording(stream.Format);
        var block = new SampleBlock(stream.Format, cuts.Max());
        for (int i = 0; stream.PositionTick < stream.EndTick; i++)
        {
            recording.Take(stream, block, Math.Min(stream.EndTick, stream.PositionTick + cuts[i % cuts.Length]));
        }

        return recording;
    }

    /// <summary>Records a stream up to a tick.</summary>
    public static Recording OfPart(SensorStream stream, long untilTick)
    {
        var recording = new Recording(stream.Format);
        recording.Take(stream, new SampleBlock(stream.Format, Math.Max(1, untilTick - stream.PositionTick)), untilTick);
        return recording;
    }

    /// <summary>What came first, then what came after.</summary>
    public Recording Then(Recording after)
    {
        var both = new Recording(Format);
        for (int c = 0; c < _codes.Length; c++)
        {
            both._codes[c].AddRange([.. _codes[c], .. after._codes[c]]);
            both._status[c].AddRange([.. _status[c], .. after._status[c]]);
            both._indices[c].AddRange([.. _indices[c], .. after._indices[c]]);
        }

        both.HasOverflow = HasOverflow || after.HasOverflow;
        both.Told.AddRange([.. Told, .. after.Told]);
        both.Truth.AddRange([.. Truth, .. after.Truth]);
        return both;
    }

    public int[] Codes(ChannelName name) => [.. _codes[Format.IndexOf(name)]];

    public ushort[] Status(ChannelName name) => [.. _status[Format.IndexOf(name)]];

    /// <summary>Whether more was told in one block than the ring holds; then <see cref="Told"/> is not complete.</summary>
    public bool HasOverflow { get; private set; }

    /// <summary>Indices of the samples that arrived.</summary>
    public long[] Indices(ChannelName name) => [.. _indices[Format.IndexOf(name)]];

    /// <summary>Stretches of a kind in a channel, pieces that touch joined and their values added.</summary>
    public AcquisitionEvent[] Stretches(ChannelName name, AcquisitionKind kind)
    {
        List<AcquisitionEvent> joined = [];
        foreach (AcquisitionEvent told in Told.Where(t => t.Channel == name && t.Kind == kind))
        {
            if (kind != AcquisitionKind.LatePacket && joined.Count > 0 && joined[^1].EndNs == told.BeginNs)
            {
                joined[^1] = joined[^1] with { EndNs = told.EndNs, Value = joined[^1].Value + told.Value };
            }
            else
            {
                joined.Add(told);
            }
        }

        return [.. joined];
    }

    /// <summary>Codes in the channel's unit.</summary>
    public double[] Physical(ChannelName name)
    {
        ChannelFormat format = Channel(name);
        return [.. _codes[Format.IndexOf(name)].Select(format.Physical)];
    }

    public ChannelFormat Channel(ChannelName name) => Format.Channels[Format.IndexOf(name)];

    /// <summary>Truth as text to the last bit, up to a time; how far truth runs ahead of the samples depends on the cuts.</summary>
    public string[] TruthText(double untilSeconds) =>
        [.. Truth.Where(t => t.TimeNs < untilSeconds * 1e9)
            .Select(t => $"{t.Channel} {t.Kind} {t.TimeNs} {BitConverter.DoubleToInt64Bits(t.Value):x} {t.BeatId} {t.Label} {t.Flags}")];

    /// <summary>Times of a kind of truth in a channel [s].</summary>
    public double[] TruthSeconds(ChannelName channel, MarkKind kind) =>
        [.. Truth.Where(t => t.Channel == channel && t.Kind == kind).Select(t => t.TimeNs * 1e-9)];

    /// <summary>Fails unless the other recording has the same codes and status words on every channel.</summary>
    public void AssertSameAs(Recording other, string what)
    {
        for (int c = 0; c < _codes.Length; c++)
        {
            string name = $"{what}, {Format.Channels[c].Name}";
            Assert.That(_codes[c], Has.Count.EqualTo(other._codes[c].Count), $"{name}: number of samples");
            int differs = Enumerable.Range(0, _codes[c].Count)
                .FirstOrDefault(i => _codes[c][i] != other._codes[c][i] || _status[c][i] != other._status[c][i] || _indices[c][i] != other._indices[c][i], -1);
            Assert.That(differs, Is.EqualTo(-1), $"{name}: first sample that differs");
            foreach (AcquisitionKind kind in HasOverflow || other.HasOverflow ? [] : Enum.GetValues<AcquisitionKind>())
            {
                Assert.That(
                    Stretches(Format.Channels[c].Name, kind), Is.EqualTo(other.Stretches(Format.Channels[c].Name, kind)), $"{name}: {kind}");
            }
        }
    }

    /// <summary>Fails unless samples that did not arrive have been told as gaps, each once.</summary>
    public void AssertGapsAreTold(double seconds)
    {
        foreach (ChannelFormat channel in Format.Channels)
        {
            long count = _indices[Format.IndexOf(channel.Name)].Count;
            double lost = Told.Where(t => t.Channel == channel.Name && t.Kind == AcquisitionKind.Gap).Sum(t => t.Value);
            Assert.That(count + lost, Is.EqualTo(seconds * channel.RateHz), channel.Name.Text());
        }
    }

    private void Take(SensorStream stream, SampleBlock block, long untilTick)
    {
        stream.Read(block, untilTick);
        for (int c = 0; c < _codes.Length; c++)
        {
            // A jump of the index is a gap; there must be no repetition, and without losses no jump either.
            foreach (SampleRun run in block.Channels[c].Runs)
            {
                long next = _indices[c].Count == 0 ? 0 : _indices[c][^1] + 1;
                Assert.That(run.FirstIndex, Is.GreaterThanOrEqualTo(Math.Max(next, Format.FirstSampleAtOrAfter(c, block.BeginTick))), "rises");
                for (int i = 0; i < run.Count; i++)
                {
                    _indices[c].Add(run.FirstIndex + i);
                }
            }

            _codes[c].AddRange(block.Channels[c].Codes);
            _status[c].AddRange(block.Channels[c].Status);
        }

        while (stream.Truth.TryTake(out TruthEvent row))
        {
            Truth.Add(row);
        }

        HasOverflow |= stream.Acquisition.OverflowCount > 0;
        while (stream.Acquisition.TryTake(out AcquisitionEvent told))
        {
            Told.Add(told);
        }
    }
}
