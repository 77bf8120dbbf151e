// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.CLibraries;

/// <summary>What the frames hold: each message written and read side by side.</summary>
internal static class Messages
{
    public static void WriteFormat(FrameWriter frame, StreamFormat format)
    {
        frame.Add(format.Channels.Count);
        foreach (ChannelFormat c in format.Channels)
        {
            frame.Add((int)c.Name).AddText(c.Device).Add(c.RateHz).Add(c.Bits).Add(c.IsSigned ? 1 : 0)
                .Add(c.UnitPerCode).Add(c.ZeroCode).Add(c.Polarity).Add(c.DeclaredDelayNs);
        }
    }

    public static StreamFormat ReadFormat(FrameReader frame)
    {
        var channels = new ChannelFormat[frame.TakeCount()];
        for (int i = 0; i < channels.Length; i++)
        {
            channels[i] = new ChannelFormat
            {
                Name = (ChannelName)frame.Take<int>(),
                Device = frame.TakeText(),
                RateHz = frame.Take<int>(),
                Bits = frame.Take<int>(),
                IsSigned = frame.Take<int>() != 0,
                UnitPerCode = frame.Take<double>(),
                ZeroCode = frame.Take<int>(),
                Polarity = frame.Take<int>(),
                DeclaredDelayNs = frame.Take<long>(),
            };
        }

        return new StreamFormat(channels);
    }

    public static void WriteValues(FrameWriter frame, IReadOnlyDictionary<string, double> values)
    {
        frame.Add(values.Count);
        foreach ((string name, double value) in values)
        {
            frame.AddText(name).Add(value);
        }
    }

    public static Dictionary<string, double> ReadValues(FrameReader frame)
    {
        var values = new Dictionary<string, double>(StringComparer.Ordinal);
        for (int left = frame.TakeCount(); left > 0; left--)
        {
            values[frame.TakeText()] = frame.Take<double>();
        }

        return values;
    }

    public static void WriteDescription(FrameWriter frame, CLibrary library)
    {
        frame.AddText(library.Name).Add(library.Constants.Count);
        foreach (NumberKey key in library.Constants)
        {
            frame.AddText(key.Name).AddText(key.Unit).AddText(key.Meaning).Add(key.Minimum).Add(key.Maximum).Add(key.Default).Add(key.IsWhole ? 1 : 0);
        }
    }

    public static (string Name, IReadOnlyList<NumberKey> Constants) ReadDescription(FrameReader frame)
    {
        string name = frame.TakeText();
        var constants = new NumberKey[frame.TakeCount()];
        for (int i = 0; i < constants.Length; i++)
        {
            constants[i] = new NumberKey
            {
                Name = frame.TakeText(),
                Unit = frame.TakeText(),
                Meaning = frame.TakeText(),
                Source = name,
                Minimum = frame.Take<double>(),
                Maximum = frame.Take<double>(),
                Default = frame.Take<double>(),
                IsWhole = frame.Take<int>() != 0,
            };
        }

        return (name, constants);
    }

    public static void WriteBlock(FrameWriter frame, SampleBlock block)
    {
        frame.Add(block.BeginTick).Add(block.EndTick);
        foreach (ChannelBlock channel in block.Channels)
        {
            frame.Add(channel.Runs.Length);
            foreach (SampleRun run in channel.Runs)
            {
                frame.Add(run.FirstIndex).Add(run.Count).AddAll(channel.Codes.Slice(run.Offset, run.Count)).AddAll(channel.Status.Slice(run.Offset, run.Count));
            }
        }
    }

    /// <summary>Reads a block; one that does not fit into the room at hand gets a larger one.</summary>
    public static void ReadBlock(FrameReader frame, StreamFormat format, ref SampleBlock block)
    {
        long begin = frame.Take<long>();
        long end = frame.Take<long>();
        if (end - begin > block.MaximumTicks)
        {
            block = new SampleBlock(format, end - begin);
        }

        block.Begin(begin, end);
        foreach (ChannelBlock channel in block.Channels)
        {
            for (int left = frame.TakeCount(); left > 0; left--)
            {
                channel.Append(frame.Take<long>(), frame.Take<int>(), out Span<int> codes, out Span<ushort> status);
                frame.TakeAll(codes);
                frame.TakeAll(status);
            }
        }
    }

    public static void WriteAnswers(FrameWriter frame, DetectorOutput output)
    {
        frame.Add(output.Marks.Count);
        while (output.Marks.TryTake(out Mark m))
        {
            frame.Add(m.Channel).Add((int)m.Kind).Add(m.Sample).Add(m.Fraction256).Add(m.HasValue ? (byte)1 : (byte)0).Add(m.Quality)
                .Add(m.PairedFraction256).Add(m.ValueMilli).Add(m.EmittedTick).Add(m.PairedChannel).Add(m.PairedSample).Add(m.WindowSamples);
        }

        frame.Add(output.Requests.Count);
        while (output.Requests.TryTake(out SettingsRequest r))
        {
            frame.Add(r.Channel).Add((int)r.Setting).Add(r.ValueMilli).Add(r.EffectiveTick);
        }
    }

    public static void ReadAnswers(FrameReader frame, DetectorOutput output)
    {
        for (int left = frame.TakeCount(); left > 0; left--)
        {
            output.Marks.Add(new Mark
            {
                Channel = frame.Take<int>(),
                Kind = (MarkKind)frame.Take<int>(),
                Sample = frame.Take<long>(),
                Fraction256 = frame.Take<byte>(),
                HasValue = frame.Take<byte>() != 0,
                Quality = frame.Take<byte>(),
                PairedFraction256 = frame.Take<byte>(),
                ValueMilli = frame.Take<int>(),
                EmittedTick = frame.Take<long>(),
                PairedChannel = frame.Take<int>(),
                PairedSample = frame.Take<long>(),
                WindowSamples = frame.Take<long>(),
            });
        }

        for (int left = frame.TakeCount(); left > 0; left--)
        {
            output.Requests.Add(new SettingsRequest(frame.Take<int>(), (SensorSetting)frame.Take<int>(), frame.Take<int>(), frame.Take<long>()));
        }
    }
}
