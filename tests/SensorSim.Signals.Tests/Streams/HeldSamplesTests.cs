// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Tests.Streams;

/// <summary>What is held comes out once, in order and unchanged, however it is asked for; expected is what was put in, kept in plain lists.</summary>
[TestFixture]
public sealed class HeldSamplesTests
{
    // A second.
    private const long StretchTicks = 13000;
    private const int Stretches = 6;

    [TestCase(1)]
    [TestCase(77)]
    [TestCase(1713)]
    [TestCase(12999)]
    [TestCase(13000)]
    public void HandOut_AnyCut_GivesEverySampleOnce(long cutTicks)
    {
        StreamFormat format = Formats.EcgRedAccel;
        var held = new HeldSamples(format, StretchTicks);
        (List<Sample> put, List<Sample> got) = (new(), new());
        var block = new SampleBlock(format, StretchTicks);
        for (int s = 0; s < Stretches; s++)
        {
            long end = (s + 1) * StretchTicks;
            Fill(format, held.Begin(s * StretchTicks, end), 5000 + s, put);
            for (long at = s * StretchTicks; at < end;)
            {
                long until = Math.Min(end, at + cutTicks);
                block.Begin(at, until);
                held.HandOut(block, until);
                AssertInside(format, block);
                Take(block, got);
                at = until;
            }
        }

        Assert.That(put, Has.Count.GreaterThan(1000), "else it proves little");
        Assert.That(Sorted(got), Is.EqualTo(Sorted(put)));
    }

    [Test]
    public void HandOut_OfARunThatGoesOnAfterwards_GivesTheRestToo()
    {
        StreamFormat format = new([Formats.Channel(ChannelName.Ecg, 100)]);
        var held = new HeldSamples(format, StretchTicks);
        (List<Sample> put, List<Sample> got) = (new(), new());
        var block = new SampleBlock(format, StretchTicks);
        held.Begin(0, StretchTicks);
        foreach ((long first, int count) in ((long, int)[])[(0, 5), (5, 3), (8, 1), (20, 2), (22, 4)])
        {
            Append(held.Samples, 0, first, count, new Random(5000), put);
            block.Begin(0, StretchTicks);
            held.HandOut(block, StretchTicks);
            Take(block, got);
        }

        Assert.That(got, Is.EqualTo(put));
    }

    [Test]
    public void HandOut_IntoABlockThatHoldsSamples_GoesBehindThem()
    {
        StreamFormat format = Formats.EcgRedAccel;
        var held = new HeldSamples(format, StretchTicks);
        (List<Sample> put, List<Sample> got) = (new(), new());
        var block = new SampleBlock(format, 2 * StretchTicks);
        block.Begin(0, 2 * StretchTicks);
        for (int s = 0; s < 2; s++)
        {
            Fill(format, held.Begin(s * StretchTicks, (s + 1) * StretchTicks), 5010 + s, put);
            held.HandOut(block, (s + 1) * StretchTicks);
        }

        Take(block, got);
        Assert.That(Sorted(got), Is.EqualTo(Sorted(put)));
    }

    [Test]
    public void Begin_WithSamplesLeft_ForgetsThem()
    {
        StreamFormat format = Formats.EcgRedAccel;
        var held = new HeldSamples(format, StretchTicks);
        (List<Sample> put, List<Sample> got) = (new(), new());
        var block = new SampleBlock(format, StretchTicks);
        block.Begin(0, StretchTicks);
        Fill(format, held.Begin(0, StretchTicks), 5020, []);
        held.HandOut(block, 700);
        Fill(format, held.Begin(StretchTicks, 2 * StretchTicks), 5021, put);
        block.Begin(StretchTicks, 2 * StretchTicks);
        held.HandOut(block, 2 * StretchTicks);

        Take(block, got);
        Assert.That(Sorted(got), Is.EqualTo(Sorted(put)));
    }

    [TestCase(0)]
    [TestCase(3331)]
    [TestCase(12999)]
    public void Copy_GoesOnByItself(long atTick)
    {
        StreamFormat format = Formats.EcgRedAccel;
        var held = new HeldSamples(format, StretchTicks);
        (List<Sample> put, List<Sample> before, List<Sample> rest, List<Sample> ofCopy, List<Sample> later) = (new(), new(), new(), new(), new());
        var block = new SampleBlock(format, StretchTicks);
        Fill(format, held.Begin(0, StretchTicks), 5030, put);
        block.Begin(0, StretchTicks);
        held.HandOut(block, atTick);
        Take(block, before);

        HeldSamples copy = held.Copy();
        Assert.That((copy.Samples.BeginTick, copy.Samples.EndTick, copy.Samples.MaximumTicks), Is.EqualTo((0, StretchTicks, StretchTicks)));
        block.Begin(0, StretchTicks);
        held.HandOut(block, StretchTicks);
        Take(block, rest);

        // The first one goes on to another stretch before the copy is asked.
        Fill(format, held.Begin(StretchTicks, 2 * StretchTicks), 5031, later);
        block.Begin(0, StretchTicks);
        copy.HandOut(block, (atTick + StretchTicks) / 2);
        copy.HandOut(block, StretchTicks);
        Take(block, ofCopy);

        Assert.That(Sorted([.. before, .. rest]), Is.EqualTo(Sorted(put)));
        Assert.That(ofCopy, Is.EqualTo(rest));
        block.Begin(StretchTicks, 2 * StretchTicks);
        held.HandOut(block, 2 * StretchTicks);
        List<Sample> afterwards = [];
        Take(block, afterwards);
        Assert.That(Sorted(afterwards), Is.EqualTo(Sorted(later)));
    }

    [Test]
    public void HandOut_OnceWarm_AllocatesNothing()
    {
        StreamFormat format = Formats.EcgRedAccel;
        var held = new HeldSamples(format, StretchTicks);
        var filled = new SampleBlock(format, StretchTicks);
        var block = new SampleBlock(format, StretchTicks);
        long allocated = 0;
        for (int s = 0; s < 20; s++)
        {
            // The same gaps every time, for room of gaps follows the most that ever came.
            long begin = s * StretchTicks;
            filled.Begin(begin, begin + StretchTicks);
            Fill(format, filled, 5040, []);
            long from = GC.GetAllocatedBytesForCurrentThread();
            SampleBlock to = held.Begin(begin, begin + StretchTicks);
            for (int c = 0; c < to.Channels.Length; c++)
            {
                ChannelBlock channel = filled.Channels[c];
                foreach (SampleRun run in channel.Runs)
                {
                    to.Channels[c].Append(run.FirstIndex, channel.Codes.Slice(run.Offset, run.Count), channel.Status.Slice(run.Offset, run.Count));
                }
            }

            for (long at = begin; at < begin + StretchTicks; at += 500)
            {
                block.Begin(at, at + 500);
                held.HandOut(block, at + 500);
            }

            allocated = s < 10 ? 0 : allocated + GC.GetAllocatedBytesForCurrentThread() - from;
        }

        Assert.That(allocated, Is.Zero);
    }

    // Runs of 1 to 12 samples and gaps of 0 to 5, by chance.
    private static void Fill(StreamFormat format, SampleBlock block, int seed, List<Sample> put)
    {
        var random = new Random(seed);
        for (int c = 0; c < block.Channels.Length; c++)
        {
            long end = format.FirstSampleAtOrAfter(c, block.EndTick);
            for (long first = format.FirstSampleAtOrAfter(c, block.BeginTick) + random.Next(3); first < end;)
            {
                int count = (int)Math.Min(end - first, random.Next(1, 13));
                Append(block, c, first, count, random, put);
                first += count + random.Next(6);
            }
        }
    }

    private static void Append(SampleBlock block, int channel, long first, int count, Random random, List<Sample> put)
    {
        block.Channels[channel].Append(first, count, out Span<int> codes, out Span<ushort> status);
        for (int i = 0; i < count; i++)
        {
            codes[i] = random.Next(-1000, 1000);
            status[i] = (ushort)random.Next(65536);
            put.Add(new Sample(channel, first + i, codes[i], status[i]));
        }
    }

    private static void Take(SampleBlock block, List<Sample> got)
    {
        for (int c = 0; c < block.Channels.Length; c++)
        {
            ChannelBlock channel = block.Channels[c];
            foreach (SampleRun run in channel.Runs)
            {
                for (int i = 0; i < run.Count; i++)
                {
                    got.Add(new Sample(c, run.FirstIndex + i, channel.Codes[run.Offset + i], channel.Status[run.Offset + i]));
                }
            }
        }
    }

    private static void AssertInside(StreamFormat format, SampleBlock block)
    {
        for (int c = 0; c < block.Channels.Length; c++)
        {
            foreach (SampleRun run in block.Channels[c].Runs)
            {
                Assert.That(run.FirstIndex, Is.GreaterThanOrEqualTo(format.FirstSampleAtOrAfter(c, block.BeginTick)));
                Assert.That(run.FirstIndex + run.Count, Is.LessThanOrEqualTo(format.FirstSampleAtOrAfter(c, block.EndTick)));
            }
        }
    }

    private static List<Sample> Sorted(List<Sample> samples) => [.. samples.OrderBy(s => s.Channel).ThenBy(s => s.Index)];

    private readonly record struct Sample(int Channel, long Index, int Code, ushort Status);
}
