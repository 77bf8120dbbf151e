// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Frames;

/// <summary>Frames made and found again: any cut, damage, numbering.</summary>
public sealed class FrameTests
{
    [Test]
    public void Write_EveryPayloadLength_ComesBackInAnyCut()
    {
        var writer = new FrameWriter(uint.MaxValue - 100);
        var wire = new List<byte>();
        for (int length = 0; length <= FrameLimits.MaximumPayload; length++)
        {
            wire.AddRange(Made(writer, FrameType.Samples, Payload(length)));
        }

        foreach (int cut in new[] { 1, 2, 7, 253, 254, 255, 100_000 })
        {
            var reader = new FrameReader();
            List<(FrameType Type, uint Sequence, byte[] Payload)> frames = FramesOf(reader, [.. wire], cut);
            Assert.That(frames, Has.Count.EqualTo(241));
            for (int i = 0; i < frames.Count; i++)
            {
                Assert.That(frames[i].Sequence, Is.EqualTo(unchecked(uint.MaxValue - 100 + (uint)i)));
                Assert.That(frames[i].Payload, Is.EqualTo(Payload(i)));
            }

            Assert.That(reader.Counts, Is.EqualTo(new FrameCounts(241, 0, 0, 0, 0)));
        }
    }

    [Test]
    public void Write_FullPayloadWithoutZeros_TakesTheStatedBytes()
    {
        byte[] payload = [.. Enumerable.Repeat((byte)0xA5, FrameLimits.MaximumPayload)];
        Assert.That(Made(new FrameWriter(0x01010101), FrameType.Samples, payload), Has.Length.EqualTo(254));
        Assert.That(Made(new FrameWriter(0x01010101), FrameType.Hello, payload), Has.Length.EqualTo(255));
        Assert.That(() => new FrameWriter().Write(FrameType.Log, new byte[241], new byte[400]), Throws.ArgumentException);
        Assert.That(() => new FrameWriter().Write(FrameType.Ask, default, new byte[14]), Throws.ArgumentException);
    }

    [Test]
    public void TryRead_EveryBitFlipped_IsNeverTakenForAFrame()
    {
        byte[] wire = Made(new FrameWriter(7), FrameType.Progress, Payload(40));
        byte[] next = Made(new FrameWriter(8), FrameType.Progress, Payload(40));
        for (int bit = 0; bit < 8 * (wire.Length - 1); bit++)
        {
            var damaged = (byte[])wire.Clone();
            damaged[bit / 8] ^= (byte)(1 << (bit % 8));
            var reader = new FrameReader();
            List<(FrameType, uint Sequence, byte[])> frames = FramesOf(reader, [.. damaged, .. next, .. next], 1000);
            Assert.That(frames.Select(f => f.Sequence), Is.EqualTo(new uint[] { 8 }), $"bit {bit}");
            Assert.That(reader.Counts.Damaged, Is.InRange(1, 2));
            Assert.That(reader.Counts.Repeated, Is.EqualTo(1));
        }
    }

    [Test]
    public void TryRead_NumbersPassedOverOrComingAgain_AreCounted()
    {
        var reader = new FrameReader();
        uint[] numbers = [10, 11, 11, 14, 12, 4_294_967_295, 14u + 0x7FFFFFFF, 15u + 0x7FFFFFFF];
        byte[] wire = [.. numbers.SelectMany(n => Made(new FrameWriter(n), FrameType.Progress, []))];
        Assert.That(FramesOf(reader, wire, 3).Select(f => f.Sequence), Is.EqualTo(new uint[] { 10, 11, 14, 14u + 0x7FFFFFFF, 15u + 0x7FFFFFFF }));
        Assert.That(reader.Counts, Is.EqualTo(new FrameCounts(5, 0, 2 + 0x7FFFFFFEL, 3, 0)));
    }

    [Test]
    public void TryRead_HelloOrAbout_BeginTheNumbersAnew()
    {
        var reader = new FrameReader();
        byte[] wire = [.. Made(new FrameWriter(500), FrameType.Samples, []), .. Made(new FrameWriter(), FrameType.Hello, []), .. Made(new FrameWriter(1), FrameType.Format, [])];
        Assert.That(FramesOf(reader, wire, 1000).Select(f => f.Sequence), Is.EqualTo(new uint[] { 500, 0, 1 }));
        Assert.That(reader.Counts, Is.EqualTo(new FrameCounts(3, 0, 0, 0, 0)));
    }

    [Test]
    public void TryRead_OtherVersion_IsDamagedAndTold()
    {
        byte[] body = [2, (byte)FrameType.Start, 0, 0, 9, 0, 0, 0];
        var wire = new byte[32];
        body = [.. body, .. BitConverter.GetBytes(Crc32C.Of(body))];
        int length = Cobs.Encode(body, wire);
        var reader = new FrameReader();
        Assert.That(FramesOf(reader, [.. wire[..length], 0], 1000), Is.Empty);
        Assert.That(reader.Counts, Is.EqualTo(new FrameCounts(0, 1, 0, 0, 1)));
        Assert.That(reader.OtherVersionSequence, Is.EqualTo(9));
    }

    [Test]
    public void TryRead_GarbageWithoutEnd_IsOneDamagedFrame()
    {
        var reader = new FrameReader();
        byte[] good = Made(new FrameWriter(), FrameType.Samples, Payload(240));
        byte[] garbage = [.. Enumerable.Repeat((byte)0x55, 10_000), 0];
        Assert.That(FramesOf(reader, [.. garbage, 0, 0, 1, 0, .. good], 11), Has.Count.EqualTo(1));
        Assert.That(reader.Counts, Is.EqualTo(new FrameCounts(1, 2, 0, 0, 0)));
    }

    [Test]
    public void DropRest_HalfAFrame_CountsNothing()
    {
        var reader = new FrameReader();
        byte[] good = Made(new FrameWriter(), FrameType.Samples, Payload(100));
        FramesOf(reader, good[..50], 1000);
        reader.DropRest();
        Assert.That(FramesOf(reader, good, 1000), Has.Count.EqualTo(1));
        Assert.That(reader.Counts.Damaged, Is.Zero);
    }

    [Test]
    public void WriteAndRead_AThousandFrames_AllocateNothing()
    {
        var writer = new FrameWriter();
        var reader = new FrameReader();
        byte[] payload = Payload(240);
        var wire = new byte[FrameLimits.WireBuffer];
        Assert.That(Allocations.Least(() =>
        {
            for (int i = 0; i < 1000; i++)
            {
                ReadOnlySpan<byte> bytes = wire.AsSpan(0, writer.Write(FrameType.Samples, payload, wire));
                while (reader.TryRead(ref bytes, out _))
                {
                }
            }
        }), Is.Zero);
        Assert.That(reader.Counts.Good, Is.GreaterThanOrEqualTo(1000));
    }

    internal static List<(FrameType Type, uint Sequence, byte[] Payload)> FramesOf(FrameReader reader, byte[] wire, int cut)
    {
        var frames = new List<(FrameType, uint, byte[])>();
        for (int at = 0; at < wire.Length; at += cut)
        {
            ReadOnlySpan<byte> bytes = wire.AsSpan(at, Math.Min(cut, wire.Length - at));
            while (reader.TryRead(ref bytes, out Frame frame))
            {
                frames.Add((frame.Type, frame.Sequence, frame.Payload.ToArray()));
            }
        }

        return frames;
    }

    internal static byte[] Made(FrameWriter writer, FrameType type, byte[] payload)
    {
        var wire = new byte[FrameLimits.WireBuffer];
        return wire[..writer.Write(type, payload, wire)];
    }

    private static byte[] Payload(int length) => [.. Enumerable.Range(0, length).Select(i => (byte)(i * length))];
}
