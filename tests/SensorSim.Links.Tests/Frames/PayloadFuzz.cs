// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Tests.Frames;

/// <summary>Random payloads of every type, some of them damaged, and what the codec in C# makes of them.</summary>
internal static class PayloadFuzz
{
    private static readonly FrameType[] s_types = [.. Enum.GetValues<FrameType>().Where(t => t != FrameType.Format)];

    /// <summary>A payload of any type but <c>format</c>; about half of them are damaged. Text stays ASCII, and values of marks in thousandths.</summary>
    public static (FrameType Type, byte[] Payload) Any(Random random, StreamFormat format)
    {
        FrameType type = s_types[random.Next(s_types.Length)];
        byte[] payload = Good(random, type, format);
        int changes = random.Next(2) * (1 + random.Next(3));
        for (int i = 0; i < changes && payload.Length > 0; i++)
        {
            payload[random.Next(payload.Length)] = random.Next(2) == 0 ? (byte)random.Next(256) : (byte)random.Next(8);
        }

        payload = random.Next(8) == 0 ? payload[..random.Next(payload.Length + 1)] : payload;
        int text = type switch { FrameType.Hello or FrameType.Trouble => 8, FrameType.About => 16, FrameType.Log => 1, _ => payload.Length };
        for (int i = text; i < payload.Length; i++)
        {
            payload[i] &= 0x7F;
        }

        for (int i = 4 + 6; type == FrameType.Marks && i < payload.Length; i += 44)
        {
            payload[i] &= 1;
        }

        return (type, payload);
    }

    /// <summary>A payload read and written again; null when it is refused. Of <c>samples</c>: everything it says, then itself, canonical.</summary>
    public static byte[]? Again(FrameType type, ReadOnlySpan<byte> payload, StreamFormat format)
    {
        var bytes = new byte[FrameLimits.MaximumPayload];
        int? length = type switch
        {
            FrameType.Hello => HelloPayload.TryRead(payload, out HelloPayload x) ? x.Write(bytes) : null,
            FrameType.About => AboutPayload.TryRead(payload, out AboutPayload x) ? x.Write(bytes) : null,
            FrameType.Start or FrameType.Stop => TickPayload.TryRead(payload, out TickPayload x) ? x.Write(bytes) : null,
            FrameType.Capture => CapturePayload.TryRead(payload) ? CapturePayload.Write(bytes) : null,
            FrameType.Accepted => AcceptedPayload.TryRead(payload, out AcceptedPayload x) ? x.Write(bytes) : null,
            FrameType.Progress or FrameType.Stopped => ProgressPayload.TryRead(payload, out ProgressPayload x) ? x.Write(bytes) : null,
            FrameType.Setting or FrameType.Request => SettingPayload.TryRead(payload, out SettingsRequest x) ? SettingPayload.Write(x, bytes) : null,
            FrameType.Log => LogPayload.TryRead(payload, out LogPayload x) ? x.Write(bytes) : null,
            FrameType.Trouble => TroublePayload.TryRead(payload, out TroublePayload x) ? x.Write(bytes) : null,
            FrameType.Setup => Setup(payload, bytes),
            FrameType.Figures => Figures(payload, bytes),
            FrameType.Marks => Marks(payload, format, bytes),
            FrameType.Ask => payload.Length == 0 ? 0 : null,
            _ => null,
        };
        return type == FrameType.Samples ? Samples(payload, format) : length is int l ? bytes[..l] : null;
    }

    private static byte[] Good(Random random, FrameType type, StreamFormat format)
    {
        var bytes = new byte[FrameLimits.MaximumPayload];
        string text = new('x', random.Next(240));
        uint number = (uint)random.NextInt64(1L << 32);
        long tick = random.NextInt64(TickPayload.MaximumTick);
        int length = type switch
        {
            FrameType.Hello => new HelloPayload(number, 1, 2, text).Write(bytes),
            FrameType.About => new AboutPayload(number, 1, (ushort)number, number * 3, number * 5, text).Write(bytes),
            FrameType.Start or FrameType.Stop => new TickPayload(tick).Write(bytes),
            FrameType.Capture => CapturePayload.Write(bytes),
            FrameType.Accepted => new AcceptedPayload(FrameType.Setup, number).Write(bytes),
            FrameType.Progress or FrameType.Stopped => new ProgressPayload(number, 2, tick, 4, 5, number * 7, 7, 8, 9).Write(bytes),
            FrameType.Setting or FrameType.Request => SettingPayload.Write(new SettingsRequest(random.Next(9), (SensorSetting)random.Next(5), random.Next(), tick), bytes),
            FrameType.Log => new LogPayload((LogLevel)random.Next(3), text).Write(bytes),
            FrameType.Trouble => new TroublePayload((TroubleCode)random.Next(12), number, text).Write(bytes),
            FrameType.Setup or FrameType.Figures => SetupPayload.Write([.. Enumerable.Range(0, random.Next(21)).Select(_ => new SetupItem((ushort)random.Next(65_536), 3, random.NextInt64()))], bytes),
            FrameType.Marks => MarkPayload.Write([.. Enumerable.Range(0, random.Next(1, 6)).Select(_ => RandomMark(random, format))], bytes),
            _ => 0,
        };
        return type == FrameType.Samples ? GoodSamples(random, format) : bytes[..length];
    }

    private static byte[] GoodSamples(Random random, StreamFormat format)
    {
        var writer = new SamplesWriter(format);
        long begin = random.NextInt64(1L << random.Next(1, 61));
        if (random.Next(8) == 0)
        {
            var mark = new byte[FrameLimits.MaximumPayload];
            return mark[..SamplesWriter.WriteTimeMark(begin, mark)];
        }

        writer.Begin(Streams.Block(format, begin, begin + format.Clock.TicksPerSecond, random), asksAtEnd: random.Next(2) == 0);
        List<byte[]> payloads = SamplesTests.Payloads(writer);
        return payloads[random.Next(payloads.Count)];
    }

    private static Mark RandomMark(Random random, StreamFormat format)
    {
        bool isPaired = random.Next(2) == 0;
        return new Mark
        {
            Kind = (MarkKind)random.Next(MarkKinds.All.Count),
            Channel = random.Next(format.Channels.Count),
            Sample = random.NextInt64(),
            Fraction256 = (byte)random.Next(256),
            HasValue = random.Next(2) == 0,
            ValueMilli = random.Next(int.MinValue, int.MaxValue),
            Quality = (byte)random.Next(256),
            EmittedTick = random.NextInt64(),
            PairedChannel = isPaired ? random.Next(format.Channels.Count) : Mark.None,
            PairedSample = isPaired ? random.NextInt64() : 0,
            PairedFraction256 = isPaired ? (byte)random.Next(256) : (byte)0,
            WindowSamples = random.NextInt64(),
        };
    }

    private static int? Setup(ReadOnlySpan<byte> payload, byte[] bytes)
    {
        var items = new SetupItem[SetupPayload.MaximumCount];
        return SetupPayload.TryRead(payload, items, out int count) ? SetupPayload.Write(items.AsSpan(0, count), bytes) : null;
    }

    private static int? Figures(ReadOnlySpan<byte> payload, byte[] bytes)
    {
        var items = new BoardFigure[FigurePayload.MaximumCount];
        return FigurePayload.TryRead(payload, items, out int count) ? FigurePayload.Write(items.AsSpan(0, count), bytes) : null;
    }

    private static int? Marks(ReadOnlySpan<byte> payload, StreamFormat format, byte[] bytes)
    {
        var marks = new Mark[MarkPayload.MaximumCount];
        return MarkPayload.TryRead(payload, format, marks, out int count) ? MarkPayload.Write(marks.AsSpan(0, count), bytes) : null;
    }

    private static byte[] Samples(ReadOnlySpan<byte> payload, StreamFormat format)
    {
        if (!new SamplesReader(format).TryRead(payload, out SamplesPayload samples, out TroubleCode trouble))
        {
            return [(byte)trouble];
        }

        var dump = new List<byte> { 0 };
        var canonical = new List<byte>(payload[..16].ToArray()) { [13] = (byte)(payload[13] & 1), [14] = 0, [15] = 0 };
        foreach (SamplesSection section in samples)
        {
            var codes = new int[section.Count];
            var status = new ushort[section.Count];
            section.CopyCodes(codes);
            section.CopyStatus(status);
            dump.AddRange([(byte)section.Channel, .. BitConverter.GetBytes(section.FirstIndex), (byte)section.Count]);
            for (int i = 0; i < codes.Length; i++)
            {
                dump.AddRange([.. BitConverter.GetBytes(codes[i]), .. BitConverter.GetBytes(status[i])]);
            }

            canonical.AddRange(Canonical(section, codes, status, format, samples.BeginTick));
        }

        return [.. dump, .. canonical.Count <= FrameLimits.MaximumPayload ? canonical : []];
    }

    private static byte[] Canonical(SamplesSection section, int[] codes, ushort[] status, StreamFormat format, long begin)
    {
        ushort[] words = Array.TrueForAll(status, s => s == status[0]) ? status[0] == 0 ? [] : status[..1] : status;
        int mode = words.Length == 0 ? 0 : Array.TrueForAll(status, s => s == status[0]) ? 1 : 2;
        var packed = new byte[BitPacking.Bytes(codes.Length, format.Channels[section.Channel].Bits)];
        BitPacking.Pack(codes, format.Channels[section.Channel].Bits, packed);
        long gap = section.FirstIndex - format.FirstSampleAtOrAfter(section.Channel, begin);
        return [(byte)section.Channel, (byte)mode, (byte)codes.Length, (byte)gap, .. words.SelectMany(BitConverter.GetBytes), .. packed];
    }
}
