// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Tests.Frames;

/// <summary>Streams and blocks for the tests of frames.</summary>
internal static class Streams
{
    /// <summary>Three channels of two devices, signed and unsigned, both polarities.</summary>
    public static StreamFormat Small { get; } = new(
    [
        new ChannelFormat { Name = ChannelName.Ecg, Device = "device_0", RateHz = 250, Bits = 16, IsSigned = true, UnitPerCode = 0.000_381, ZeroCode = -12, DeclaredDelayNs = 8_000_001 },
        new ChannelFormat { Name = ChannelName.Infrared, Device = "device_1", RateHz = 100, Bits = 19, IsSigned = false, UnitPerCode = 0.25, Polarity = -1, DeclaredDelayNs = -700_000 },
        new ChannelFormat { Name = ChannelName.AccelZ, Device = "device_1", RateHz = 50, Bits = 12, IsSigned = true, UnitPerCode = 0.004 },
    ]);

    /// <summary>All eight channels, rates without a common tenth, all sorts of converters.</summary>
    public static StreamFormat Full { get; } = new(Enumerable.Range(0, 8).Select(i => new ChannelFormat
    {
        Name = (ChannelName)i,
        Device = i < 5 ? "device_0" : "device_1",
        RateHz = new[] { 500, 128, 128, 128, 128, 52, 52, 52 }[i],
        Bits = new[] { 24, 4, 5, 17, 19, 16, 12, 10 }[i],
        IsSigned = i is 0 or > 4,
        Polarity = i is > 0 and < 5 ? -1 : 1,
        UnitPerCode = 1.0 / (3 + i),
        ZeroCode = i * 7,
        DeclaredDelayNs = (i * 1_234_567L) - 3_000_000,
    }));

    /// <summary>A block with codes of the whole range, gaps, and status words now and then.</summary>
    public static SampleBlock Block(StreamFormat format, long begin, long end, Random random)
    {
        var block = new SampleBlock(format, Math.Max(1, end - begin));
        block.Begin(begin, end);
        for (int i = 0; i < format.Channels.Count; i++)
        {
            ChannelFormat channel = format.Channels[i];
            long next = format.FirstSampleAtOrAfter(i, begin);
            long after = format.FirstSampleAtOrAfter(i, end);
            int sort = random.Next(4);
            while (next < after)
            {
                next += sort == 0 ? 0 : random.Next(sort == 3 ? 400 : 5);
                int count = (int)Math.Min(after - next, sort == 0 ? after - next : 1 + random.Next(60));
                if (count < 1)
                {
                    break;
                }

                block.Channels[i].Append(next, count, out Span<int> codes, out Span<ushort> status);
                ushort word = (ushort)(random.Next(2) * random.Next(65_536));
                bool isOdd = random.Next(4) == 0;
                for (int k = 0; k < count; k++)
                {
                    codes[k] = random.Next(channel.MinimumCode, channel.MaximumCode + 1);
                    status[k] = isOdd && random.Next(8) == 0 ? (ushort)8 : word;
                }

                next += count;
            }
        }

        return block;
    }
}
