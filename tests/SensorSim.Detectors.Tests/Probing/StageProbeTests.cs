// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detectors.Probing;
using SensorSim.FixedPoint;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests.Probing;

[TestFixture]
public sealed class StageProbeTests
{
    private sealed class Kept : IStageSink
    {
        public List<(ProbePoint Point, ChannelName Channel, long Sample, int Value)> Values { get; } = [];

        public void Take(ProbePoint point, ChannelName channel, long sample, int value) => Values.Add((point, channel, sample, value));
    }

    private sealed class Blind : IStageSink
    {
        public void Take(ProbePoint point, ChannelName channel, long sample, int value)
        {
        }
    }

    [Test]
    public void Process_Probed_GivesTheSameMarks()
    {
        StreamMaker maker = Both();
        using var probed = new ProbedDetector();
        probed.Probe.Audit = new StageAudit();
        probed.Probe.Trace(new Blind(), Enum.GetValues<ProbePoint>());
        Assert.That(Run(probed, maker, 500), Is.EqualTo(maker.Run(() => 500)));
    }

    [Test]
    public void Trace_Input_IsEveryCodeAtItsSample()
    {
        StreamMaker maker = Both();
        maker.Lose(0, 3_000, 40);
        maker.Flag(0, 5_000, 100, SampleStatus.Saturated);
        var kept = new Kept();
        using var probed = new ProbedDetector();
        probed.Probe.Trace(kept, [ProbePoint.EcgInput]);
        Run(probed, maker, 777);

        var block = new SampleBlock(maker.Format, maker.EndTick);
        maker.Fill(block, 0, maker.EndTick);
        var expected = new List<(ProbePoint Point, ChannelName Channel, long Sample, int Value)>();
        foreach (SampleRun run in block.Channels[0].Runs)
        {
            for (int i = 0; i < run.Count; i++)
            {
                long sample = run.FirstIndex + i;
                if (sample is < 5_000 or >= 5_100)
                {
                    expected.Add((ProbePoint.EcgInput, ChannelName.Ecg, sample, block.Channels[0].Codes[run.Offset + i]));
                }
            }
        }

        // What fills a gap may be seen as well; every true code is there at its place, in order, and what else there is lies in a gap.
        Assert.That(kept.Values.Intersect(expected), Is.EqualTo(expected));
        Assert.That(kept.Values.Select(v => v.Sample), Is.Ordered);
        Assert.That(
            kept.Values.Except(expected).Select(v => v.Sample).Where(s => s is not ((>= 3_000 and <= 3_040) or (>= 5_000 and <= 5_100))), Is.Empty);
    }

    [Test]
    public void Trace_AnyCut_GivesTheSameValues([Values(1, 7, 500)] int ticks)
    {
        StreamMaker maker = Both();
        var whole = new Kept();
        var cut = new Kept();
        using var first = new ProbedDetector();
        using var second = new ProbedDetector();
        first.Probe.Trace(whole, [ProbePoint.EcgEnergy, ProbePoint.PulseSlope, ProbePoint.BeatThreshold]);
        second.Probe.Trace(cut, [ProbePoint.EcgEnergy, ProbePoint.PulseSlope, ProbePoint.BeatThreshold]);
        Run(first, maker, maker.EndTick);
        Run(second, maker, ticks);
        foreach (ProbePoint point in new[] { ProbePoint.EcgEnergy, ProbePoint.PulseSlope, ProbePoint.BeatThreshold })
        {
            Assert.That(Of(whole, point), Is.Not.Empty);
            Assert.That(Of(cut, point), Is.EqualTo(Of(whole, point)));
        }
    }

    [Test]
    public void Trace_DecimatedStage_HasARowForEachWorkingSample()
    {
        int decimation = BeatWindows.ForRate(1000).Decimation;
        var spikes = new SpikeFilter();
        spikes.Start(1000, 0);
        var maker = new StreamMaker(20, StreamMaker.Channel(ChannelName.Ecg, 1000));
        var kept = new Kept();
        using var probed = new ProbedDetector();
        probed.Probe.Trace(kept, [ProbePoint.EcgBandPass]);
        Run(probed, maker, 500);
        Assert.That(decimation, Is.GreaterThan(1));

        // The filter of spikes gives nothing until its delay is over.
        Assert.That(
            kept.Values.Select(v => v.Sample),
            Is.EqualTo(Enumerable.Range(0, (20_000 - spikes.Delay) / decimation).Select(i => (long)spikes.Delay + (decimation * (i + 1)) - 1)));
    }

    [Test]
    public void Audit_CleanSignals_SeesTheInputAndLeavesRoomEverywhere()
    {
        StreamMaker maker = Both();
        var block = new SampleBlock(maker.Format, maker.EndTick);
        maker.Fill(block, 0, maker.EndTick);
        StageAudit audit = Audited(maker);
        StageRow input = audit.Rows.Single(r => r.Point == ProbePoint.EcgInput);
        int[] codes = block.Channels[0].Codes.ToArray();
        Assert.That((input.Record.Lowest, input.Record.Highest, input.Record.Count), Is.EqualTo((codes.Min(), codes.Max(), codes.Length)));
        Assert.That(audit.Rows.Select(r => r.Record.HeadroomBits(r.Format)).Where(double.IsFinite), Is.All.GreaterThan(2));
        Assert.That(audit.Rows.Select(r => r.Record.ClippedCount), Is.All.Zero);
    }

    [Test]
    public void Audit_FullScaleOfTwentyFourBits_ClipsWhereTheEnergyDoesAndNowhereElse()
    {
        StreamMaker maker = Both();
        for (int i = 0; i < 2_000; i++)
        {
            maker.Spoil(0, 4_000 + i, 1, (i / 7) % 2 == 0 ? 8_388_607 : -8_388_608);
        }

        StageRow[] rows = [.. Audited(maker).Rows];
        Assert.That(rows.Single(r => r.Point == ProbePoint.EcgBandPass).Record.ClippedCount, Is.GreaterThan(100));
        foreach (StageRow row in rows.Where(r => r.Point != ProbePoint.EcgBandPass))
        {
            Assert.That(row.Record.UsedBits, Is.LessThanOrEqualTo(row.Format.Bits), row.Point.Text());
            Assert.That(row.Record.ClippedCount, Is.Zero, row.Point.Text());
        }
    }

    [TestCase(250)]
    [TestCase(500)]
    [TestCase(1000)]
    public void Audit_AnyRate_ShowsTheBitsThatTheShiftDrops(int rateHz)
    {
        int shift = BeatWindows.ForRate(rateHz).SumShift;
        StageRecord record = Audited(new StreamMaker(20, StreamMaker.Channel(ChannelName.Ecg, rateHz))).Rows
            .Single(r => r.Point == ProbePoint.EcgFirstSum).Record;
        Assert.That(record.DroppedBits, Is.EqualTo(shift));
        if (shift > 0)
        {
            // The rests of a noisy signal are evenly spread.
            double steps = Math.ScaleB(1, shift);
            Assert.That(record.RoundingMean, Is.EqualTo(-(1 - (1 / steps)) / 2).Within(0.03));
            Assert.That(record.RoundingNoise, Is.EqualTo(Math.Sqrt((1 - (1 / (steps * steps))) / 12)).Within(0.01));
        }
    }

    [Test]
    public void Process_Probed_AllocatesNothing()
    {
        StreamMaker maker = Both();
        using var probed = new ProbedDetector();
        probed.Probe.Audit = new StageAudit();
        probed.Probe.Trace(new Blind(), Enum.GetValues<ProbePoint>());
        probed.Start(maker.Format);
        var output = new DetectorOutput();
        var block = new SampleBlock(maker.Format, 500);
        long before = 0;
        for (long tick = 0; tick < maker.EndTick; tick += 500)
        {
            before = tick < 10_000 ? GC.GetAllocatedBytesForCurrentThread() : before;
            maker.Fill(block, tick, tick + 500);
            probed.Process(block, output);
            output.Marks.Clear();
        }

        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.Zero);
    }

    private static StreamMaker Both() =>
        new(40, StreamMaker.Channel(ChannelName.Ecg, 250), StreamMaker.Channel(ChannelName.Infrared, 100));

    private static List<(ProbePoint, ChannelName, long, int)> Of(Kept kept, ProbePoint point) => [.. kept.Values.Where(v => v.Point == point)];

    private static StageAudit Audited(StreamMaker maker)
    {
        var audit = new StageAudit();
        using var probed = new ProbedDetector();
        probed.Probe.Audit = audit;
        Run(probed, maker, 500);
        return audit;
    }

    private static List<Mark> Run(ProbedDetector detector, StreamMaker maker, long ticks)
    {
        detector.Start(maker.Format);
        var output = new DetectorOutput();
        var block = new SampleBlock(maker.Format, ticks);
        var marks = new List<Mark>();
        for (long tick = 0; tick < maker.EndTick; tick += ticks)
        {
            maker.Fill(block, tick, Math.Min(maker.EndTick, tick + ticks));
            detector.Process(block, output);
            Take(output, marks);
        }

        detector.Flush(output);
        Take(output, marks);
        return marks;
    }

    private static void Take(DetectorOutput output, List<Mark> marks)
    {
        while (output.Marks.TryTake(out Mark mark))
        {
            marks.Add(mark);
        }
    }
}
