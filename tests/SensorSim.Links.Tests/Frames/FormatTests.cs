// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Tests.Frames;

/// <summary>A stream's format goes over a link and comes back the same; contradictions are refused.</summary>
public sealed class FormatTests
{
    [Test]
    public void WriteGather_AnyOrderAndTwice_GivesTheSameFormat([Values] bool isFull, [Values] bool isReversed)
    {
        StreamFormat format = isFull ? Streams.Full : Streams.Small;
        List<byte[]> payloads = PayloadsOf(format);
        Assert.That(payloads, Has.Count.EqualTo(isFull ? 2 : 1));
        var gatherer = new FormatGatherer();
        foreach (byte[] payload in isReversed ? Enumerable.Reverse(payloads) : payloads)
        {
            Assert.That(gatherer.Format, Is.Null);
            Assert.That(gatherer.TryAdd(payload, out string? problem), Is.True, problem);
        }

        Assert.That(gatherer.Format!.Channels, Is.EqualTo(format.Channels));
        Assert.That(gatherer.Format.Clock, Is.EqualTo(format.Clock));
        StreamFormat first = gatherer.Format;
        Assert.That(gatherer.TryAdd(payloads[0], out _), Is.True);
        Assert.That(gatherer.Format, Is.SameAs(first));
    }

    [Test]
    public void TryAdd_BoardWithoutFloatingPoint_UsesCodesOfAUnit()
    {
        byte[] payload = PayloadsOf(Streams.Small)[0];
        payload.AsSpan(8 + 40, 8).Clear();
        var gatherer = new FormatGatherer();
        Assert.That(gatherer.TryAdd(payload, out string? problem), Is.True, problem);
        Assert.That(gatherer.Format!.Channels[0].UnitPerCode, Is.EqualTo(0.000_381).Within(0.000_381 / 256 / 2600));
    }

    [TestCase(0, 1, "ticks per second; the lowest common multiple")]
    [TestCase(4, 0, "0 channels")]
    [TestCase(4, 9, "9 channels")]
    [TestCase(5, 1, "channels 1 to 3 of 3")]
    [TestCase(6, 2, "bytes for 2 channels")]
    [TestCase(8, 8, "is of kind 8")]
    [TestCase(8, 7, "make no stream")]
    [TestCase(9, 3, "has 3 bits")]
    [TestCase(9, 25, "has 25 bits")]
    [TestCase(15, 255, "rate of")]
    [TestCase(16, 1, "ticks per sample of ecg")]
    [TestCase(8 + 24 + 6, 2, "/256 ticks; it may be up to 281474976710656 either way")]
    [TestCase(8 + 24 + 7, 128, "has a delay of -")]
    public void TryAdd_OneFieldWrong_SaysWhat(int at, byte value, string says)
    {
        byte[] payload = PayloadsOf(Streams.Small)[0];
        payload[at] = value;
        var gatherer = new FormatGatherer();
        Assert.That(gatherer.TryAdd(payload, out string? problem), Is.False);
        Assert.That(problem, Does.Contain(says));
        Assert.That(gatherer.Format, Is.Null);
        Assert.That(gatherer.TryAdd(PayloadsOf(Streams.Small)[0], out problem), Is.True, "what was refused changes nothing: " + problem);
    }

    [TestCase(1L << 48, true)]
    [TestCase(-(1L << 48), true)]
    [TestCase((1L << 48) + 1, false)]
    [TestCase(-(1L << 48) - 1, false)]
    [TestCase(long.MinValue, false)]
    public void TryAdd_LargestDelay_IsTheBound(long delay256, bool isTaken)
    {
        byte[] payload = PayloadsOf(Streams.Small)[0];
        System.Buffers.Binary.BinaryPrimitives.WriteInt64LittleEndian(payload.AsSpan(8 + 24), delay256);
        Assert.That(new FormatGatherer().TryAdd(payload, out _), Is.EqualTo(isTaken));
    }

    [TestCase(1 << 24, true)]
    [TestCase(-(1 << 24), true)]
    [TestCase((1 << 24) + 1, false)]
    [TestCase(-(1 << 24) - 1, false)]
    [TestCase(int.MaxValue, false)]
    [TestCase(int.MinValue, false)]
    public void TryAdd_LargestZeroCode_IsTheBound(int zero, bool isTaken)
    {
        byte[] payload = PayloadsOf(Streams.Small)[0];
        System.Buffers.Binary.BinaryPrimitives.WriteInt32LittleEndian(payload.AsSpan(8 + 12), zero);
        Assert.That(new FormatGatherer().TryAdd(payload, out _), Is.EqualTo(isTaken));
    }

    [Test]
    public void TryAdd_OtherThanBefore_IsRefused()
    {
        List<byte[]> payloads = PayloadsOf(Streams.Full);
        var gatherer = new FormatGatherer();
        gatherer.TryAdd(payloads[0], out _);
        var other = (byte[])payloads[0].Clone();
        other[8 + 12] ^= 1;
        Assert.That(gatherer.TryAdd(other, out string? problem), Is.False);
        Assert.That(problem, Does.Contain("told twice"));
        Assert.That(gatherer.TryAdd(PayloadsOf(Streams.Small)[0], out problem), Is.False);
        Assert.That(problem, Does.Contain("before it were 8"));
        Assert.That(gatherer.TryAdd([1, 2], out problem), Is.False);
        Assert.That(problem, Does.Contain("too few"));
    }

    internal static List<byte[]> PayloadsOf(StreamFormat format)
    {
        var bytes = new byte[200];
        return [.. Enumerable.Range(0, FormatPayload.Count(format)).Select(i => bytes[..FormatPayload.Write(format, i, bytes)])];
    }
}
