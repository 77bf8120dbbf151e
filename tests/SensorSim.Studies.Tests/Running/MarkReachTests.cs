// SPDX-License-Identifier: MIT
using NUnit.Framework;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Running;

/// <summary>The glance says the same as the two checks that name what is wrong.</summary>
public sealed class MarkReachTests
{
    private const int Draws = 20_000;

    [Test]
    public void Holds_MarksAroundEveryEdge_AsTheChecksSay()
    {
        StreamFormat format = Runs.Read(60).CreateStream().Format;
        var reach = new MarkReach(format);
        var random = new Random(1);
        int good = 0;
        for (int i = 0; i < Draws; i++)
        {
            // Also ends that are no sample of some channels.
            long begin = random.Next(0, 3000);
            long end = begin + random.Next(1, 600);
            Mark mark = Draw(random, format, begin, end);
            bool expected = ImpossibleMarks.Of(mark, format) is null && Lies.Of(mark, format, begin, end) is null;
            Assert.That(reach.Holds(mark, begin, end), Is.EqualTo(expected), $"{mark} in {begin} to {end}");
            good += expected ? 1 : 0;
        }

        Assert.That(good, Is.InRange(Draws / 50, Draws * 49 / 50), "both answers have to come");
    }

    [Test]
    public void Holds_PositionsBeyond64Bits_No()
    {
        StreamFormat format = Runs.Read(60).CreateStream().Format;
        var reach = new MarkReach(format);
        foreach (long sample in (long[])[long.MinValue, long.MinValue / 256, -1, 1L << 56, long.MaxValue / 256, long.MaxValue])
        {
            Assert.That(reach.Holds(new Mark { Sample = sample, EmittedTick = 10 }, 0, 500), Is.False, $"{sample}");
            Assert.That(reach.Holds(new Mark { PairedChannel = 1, PairedSample = sample, EmittedTick = 10 }, 0, 500), Is.False, $"paired {sample}");
        }

        Assert.That(reach.Holds(new Mark { EmittedTick = 10 }, 0, 500), Is.True);
    }

    private static Mark Draw(Random random, StreamFormat format, long begin, long end)
    {
        int channel = random.Next(-1, format.Channels.Count + 1);
        int paired = random.Next(4) == 0 ? random.Next(-2, format.Channels.Count + 1) : Mark.None;
        long sample = Near(random, format, channel, end);
        return new Mark
        {
            Channel = channel,
            Kind = (MarkKind)random.Next(random.Next(20) == 0 ? -1 : 0, MarkKinds.All.Count + (random.Next(20) == 0 ? 2 : 0)),
            Sample = sample,
            Fraction256 = (byte)(random.Next(2) * random.Next(256)),
            EmittedTick = random.Next(3) == 0 ? random.NextInt64(begin - 4, begin + 4) : random.NextInt64(end - 4, end + 14),
            PairedChannel = paired,
            PairedSample = Near(random, format, paired, end),
            PairedFraction256 = (byte)(random.Next(2) * random.Next(256)),
            WindowSamples = random.Next(3) switch { 0 => 0, 1 => random.NextInt64(-1, 3), _ => sample + random.Next(-2, 4) },
        };
    }

    private static long Near(Random random, StreamFormat format, int channel, long end) =>
        channel < 0 || channel >= format.Channels.Count
            ? random.Next(-2, 10)
            : (random.Next(2) * format.FirstSampleAtOrAfter(channel, end)) + random.Next(-3, 4);
}
