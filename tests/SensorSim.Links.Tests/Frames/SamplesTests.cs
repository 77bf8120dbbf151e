// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Frames;

/// <summary>Blocks into <c>samples</c> payloads and back.</summary>
public sealed class SamplesTests
{
    [Test]
    public void WriteRead_RandomBlocks_GiveTheSameSamples([Values(1, 2, 3, 4)] int seed, [Values] bool isFull)
    {
        StreamFormat format = isFull ? Streams.Full : Streams.Small;
        var random = new Random(seed);
        var writer = new SamplesWriter(format);
        var reader = new SamplesReader(format);
        var payload = new byte[FrameLimits.MaximumPayload];
        long begin = random.NextInt64(1L << random.Next(1, 61));
        for (int round = 0; round < 40; round++)
        {
            long end = begin + random.NextInt64(1, 3 * format.Clock.TicksPerSecond);
            SampleBlock block = Streams.Block(format, begin, end, random);
            var back = new SampleBlock(format, end - begin);
            back.Begin(begin, end);
            writer.Begin(block, asksAtEnd: round % 2 == 0);
            long at = begin;
            for (int length = writer.Write(payload); length > 0; length = writer.Write(payload))
            {
                Assert.That(reader.TryRead(payload.AsSpan(0, length), out SamplesPayload samples, out TroubleCode trouble), Is.True, $"{trouble}");
                Assert.That(samples.BeginTick, Is.EqualTo(at));
                Assert.That(samples.EndTick, Is.EqualTo(writer.EndTick));
                Assert.That(TenthOf(format, samples.BeginTick), Is.EqualTo(TenthOf(format, samples.EndTick - 1)), "over the end of a tenth");
                Assert.That(samples.WantsProgress, Is.EqualTo(round % 2 == 0 && samples.EndTick == end));
                samples.AppendTo(back);
                at = samples.EndTick;
            }

            Assert.That(at, Is.EqualTo(end));
            AreSame(back, block);
            begin = end;
        }
    }

    [Test]
    public void Write_OneUnbrokenStream_MakesTenFramesASecondOfAnyBlocks()
    {
        StreamFormat format = Streams.Small;
        var frames = new List<string>();
        foreach (int pieces in new[] { 1, 2, 5, 10 })
        {
            var made = new List<string>();
            var writer = new SamplesWriter(format);
            for (int i = 0; i < pieces; i++)
            {
                long step = format.Clock.TicksPerSecond / pieces;
                writer.Begin(Ramp(format, i * step, (i + 1) * step), asksAtEnd: false);
                made.AddRange(Payloads(writer).Select(Convert.ToHexString));
            }

            frames = frames.Count == 0 ? made : frames;
            Assert.That(made, Has.Count.EqualTo(10).And.EqualTo(frames));
        }
    }

    [Test]
    public void Write_TenthsThatAreNoWholeTicks_EndAtTheNextTick()
    {
        // 256 ticks a second: tenths at 25.6, 51.2, 76.8, 102.4, 128 and so on.
        var format = new StreamFormat([new ChannelFormat { Name = ChannelName.Ecg, Device = "d", RateHz = 256, Bits = 16, IsSigned = true, UnitPerCode = 1 }]);
        var writer = new SamplesWriter(format);
        writer.Begin(Ramp(format, 0, 300), asksAtEnd: false);
        Assert.That(Payloads(writer).Select(p => BinaryPrimitives.ReadInt64LittleEndian(p)), Is.EqualTo(new long[] { 0, 26, 52, 77, 103, 128, 154, 180, 205, 231, 256, 282 }));
    }

    [Test]
    public void Write_TooMuchForAFrame_HalvesItsTime()
    {
        // 25 samples of 24 bits and as many status words: 16 + 4 + 50 + 75 for one channel, two of them do not fit.
        var format = new StreamFormat(new[] { ChannelName.Red, ChannelName.Infrared }.Select(n => new ChannelFormat
        {
            Name = n, Device = "d", RateHz = 250, Bits = 24, IsSigned = false, UnitPerCode = 1,
        }));
        var block = new SampleBlock(format, 25);
        block.Begin(0, 25);
        foreach (ChannelBlock channel in block.Channels)
        {
            channel.Append(0, 25, out _, out Span<ushort> status);
            status[3] = 8;
            status[24] = 8;
        }

        var writer = new SamplesWriter(format);
        writer.Begin(block, asksAtEnd: true);
        Assert.That(Payloads(writer).Select(p => (BinaryPrimitives.ReadInt64LittleEndian(p), p[8], p[13])), Is.EqualTo(new (long, byte, byte)[] { (0, 12, 0), (12, 13, 1) }));
    }

    [Test]
    public void Write_ChannelThatGoesOnAfterAGap_EndsTheFrameThere()
    {
        StreamFormat format = Streams.Small;
        var block = new SampleBlock(format, 50);
        block.Begin(0, 50);
        block.Channels[0].Append(3, 4, out _, out _);
        block.Channels[0].Append(11, 2, out _, out _);
        block.Channels[1].Append(0, 10, out _, out _);
        var writer = new SamplesWriter(format);
        writer.Begin(block, asksAtEnd: false);

        // 500 ticks a second: sample 11 of the ECG stands at tick 22; its first frame begins with a gap of 3.
        List<byte[]> payloads = Payloads(writer);
        Assert.That(payloads.Select(p => (p[0], p[8], p[12], p[16], p[18], p[19])), Is.EqualTo(new (byte, byte, byte, byte, byte, byte)[] { (0, 22, 2, 0, 4, 3), (22, 28, 2, 0, 2, 0) }));
    }

    [Test]
    public void Write_StretchWithoutAnySample_IsToldAsTime()
    {
        var block = new SampleBlock(Streams.Small, 1000);
        block.Begin(1000, 1120);
        var writer = new SamplesWriter(Streams.Small);
        writer.Begin(block, asksAtEnd: true);
        Assert.That(Payloads(writer).Select(p => (p.Length, p[8], p[12], p[13])), Is.EqualTo(new[] { (16, (byte)50, (byte)0, (byte)0), (16, (byte)50, (byte)0, (byte)0), (16, (byte)20, (byte)0, (byte)1) }));
    }

    [Test]
    public void WriteTimeMark_ATick_IsReadAsAStretchOfNoTime()
    {
        var payload = new byte[FrameLimits.MaximumPayload];
        int length = SamplesWriter.WriteTimeMark(1L << 40, payload);
        Assert.That(new SamplesReader(Streams.Small).TryRead(payload.AsSpan(0, length), out SamplesPayload samples, out _), Is.True);
        Assert.That((samples.BeginTick, samples.EndTick, samples.SectionCount, samples.WantsProgress), Is.EqualTo((1L << 40, 1L << 40, 0, true)));
    }

    [Test]
    public void TryRead_PayloadChangedInOneField_IsRefusedWithItsReason()
    {
        var writer = new SamplesWriter(Streams.Small);
        writer.Begin(Ramp(Streams.Small, 0, 50), asksAtEnd: false);
        byte[] good = Payloads(writer)[0];
        var reader = new SamplesReader(Streams.Small);
        Assert.That(reader.TryRead(good, out _, out _), Is.True);

        // Sections: 16 ecg (25 samples of 16 bits), 70 infrared (10 of 19), 98 acceleration (5 of 12).
        foreach ((int at, byte value, TroubleCode code) in new[]
        {
            (7, (byte)0x80, TroubleCode.WrongContent), (7, (byte)0x50, TroubleCode.WrongContent), // a negative begin, one that is too late
            (8, (byte)0, TroubleCode.WrongContent), (8, (byte)51, TroubleCode.WrongContent), // no time but samples, more than a tenth of a second
            (8, (byte)48, TroubleCode.WrongContent), // the last sample lies after the end
            (12, (byte)2, TroubleCode.WrongContent), (12, (byte)4, TroubleCode.WrongContent), // bytes left over, too few
            (16, (byte)3, TroubleCode.NoSuchChannel), (70, (byte)0, TroubleCode.WrongContent), // no such channel, not ascending
            (17, (byte)3, TroubleCode.WrongContent), (18, (byte)0, TroubleCode.WrongContent), (18, (byte)26, TroubleCode.WrongContent), // status, counts
            (19, (byte)1, TroubleCode.WrongContent), // a gap pushes the last sample beyond the end
        })
        {
            var bad = (byte[])good.Clone();
            bad[at] = value;
            Assert.That(reader.TryRead(bad, out _, out TroubleCode trouble), Is.False, $"{at} = {value}");
            Assert.That(trouble, Is.EqualTo(code), $"{at} = {value}");
        }

        for (int length = 0; length < good.Length; length++)
        {
            Assert.That(reader.TryRead(good.AsSpan(0, length), out _, out _), Is.False, $"{length} bytes");
        }
    }

    [Test]
    public void WriteAndRead_ASecond_AllocateNothing()
    {
        StreamFormat format = Streams.Full;
        SampleBlock block = Streams.Block(format, 0, format.Clock.TicksPerSecond, new Random(5));
        var back = new SampleBlock(format, format.Clock.TicksPerSecond);
        var writer = new SamplesWriter(format);
        var reader = new SamplesReader(format);
        var payload = new byte[FrameLimits.MaximumPayload];
        Assert.That(Allocations.Least(() =>
        {
            back.Begin(block.BeginTick, block.EndTick);
            writer.Begin(block, asksAtEnd: true);
            for (int length = writer.Write(payload); length > 0; length = writer.Write(payload))
            {
                reader.TryRead(payload.AsSpan(0, length), out SamplesPayload samples, out _);
                samples.AppendTo(back);
            }
        }), Is.Zero);
        AreSame(back, block);
    }

    internal static List<byte[]> Payloads(SamplesWriter writer)
    {
        var payloads = new List<byte[]>();
        var payload = new byte[FrameLimits.MaximumPayload];
        for (int length = writer.Write(payload); length > 0; length = writer.Write(payload))
        {
            payloads.Add(payload[..length]);
        }

        return payloads;
    }

    internal static SampleBlock Ramp(StreamFormat format, long begin, long end)
    {
        var block = new SampleBlock(format, end - begin);
        block.Begin(begin, end);
        for (int i = 0; i < format.Channels.Count; i++)
        {
            long first = format.FirstSampleAtOrAfter(i, begin);
            int count = (int)(format.FirstSampleAtOrAfter(i, end) - first);
            if (count == 0)
            {
                continue;
            }

            block.Channels[i].Append(first, count, out Span<int> codes, out _);
            for (int k = 0; k < count; k++)
            {
                codes[k] = format.Channels[i].MinimumCode + (int)((first + k) % 16);
            }
        }

        return block;
    }

    private static long TenthOf(StreamFormat format, long tick) => (long)((Int128)tick * 10 / format.Clock.TicksPerSecond);

    private static void AreSame(SampleBlock back, SampleBlock block)
    {
        for (int i = 0; i < block.Channels.Length; i++)
        {
            Assert.That(back.Channels[i].Runs.ToArray(), Is.EqualTo(block.Channels[i].Runs.ToArray()));
            Assert.That(back.Channels[i].Codes.SequenceEqual(block.Channels[i].Codes), Is.True);
            Assert.That(back.Channels[i].Status.SequenceEqual(block.Channels[i].Status), Is.True);
        }
    }
}
