// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Detectors;
using SensorSim.Tests.Shared;

namespace SensorSim.Studies.Tests.Running;

/// <summary>What the acquisition does reaches scorer, sinks and file.</summary>
[TestFixture]
public sealed class RunnerAcquisitionTests
{
    private const long Second = 1_000_000_000;

    [Test]
    public void Run_UnusableStretches_TakeTheirBeatsOutAndReachTheSinks()
    {
        Scenario scenario = Runs.Read(60);
        AcquisitionEvent[] script =
        [
            Event(ChannelName.Ecg, AcquisitionKind.UnusableLeadOff, 20, 21),
            Event(ChannelName.Ecg, AcquisitionKind.UnusableLeadOff, 21, 25),
            Event(ChannelName.Infrared, AcquisitionKind.UnusableNoContact, 30, 35),
            Event(ChannelName.Infrared, AcquisitionKind.UnusableLost, 36, 37),
            Event(ChannelName.Infrared, AcquisitionKind.Gap, 40, 45, 500),
        ];
        var sink = new KeepSink();
        var stream = new ScriptedStream(scenario.CreateStream(), script);
        ScoreReport report = new Runner(stream, stream.Truth, new KnowingDetector(scenario), new Scorer(stream), sink).Run().Report!;

        EventScore r = report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        EventScore foot = report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        long feet = Count(sink, ChannelName.Infrared, MarkKind.PulseFootTangent, 30, 35) + Count(sink, ChannelName.Infrared, MarkKind.PulseFootTangent, 36, 37);
        Assert.That(sink.Acquisition, Is.EqualTo(script));
        Assert.That(r.UnusableTruth, Is.EqualTo(Count(sink, ChannelName.Ecg, MarkKind.RPeak, 20, 25)).And.GreaterThan(3));
        Assert.That(r.UnusableDetections, Is.EqualTo(r.UnusableTruth));
        Assert.That(foot.UnusableTruth, Is.EqualTo(feet).And.GreaterThan(4), "a gap alone makes nothing unusable");
        Assert.That((r.Missed, r.Extra, foot.Missed, foot.Extra), Is.EqualTo((0L, 0L, 0L, 0L)));
    }

    [Test]
    public void Run_EventsThatFindNoRoom_AreNoScore()
    {
        SensorStream stream = Runs.Read(20).CreateStream();
        for (int i = 0; i <= SensorStream.AcquisitionCapacity; i++)
        {
            stream.Acquisition.Add(Event(ChannelName.Ecg, AcquisitionKind.UnusableLost, i, i + 0.5));
        }

        Assert.That(
            () => new Runner(stream, stream.Truth, null, null).Run(),
            Throws.InvalidOperationException.With.Message.StartsWith("1 events of the acquisition found no room"));
    }

    [Test]
    public void Runner_ScorerThatDoesNotKnowTheClocks_IsRefused()
    {
        SensorStream stream = Runs.Read(20, "[device]\nclock_offset_ms = 5\n").CreateStream();
        Assert.That(
            () => new Runner(stream, stream.Truth, null, new Scorer(stream.Format, 20 * Second)), Throws.ArgumentException);
        Assert.That(() => new Runner(stream, stream.Truth, null, new Scorer(stream)), Throws.Nothing);
    }

    // Joined by hand: pieces that touch are one row, late packets one each, a setting holds until the next one or the end; in order of their ends.
    [Test]
    public void AcquisitionFile_Pieces_BecomeRows()
    {
        AcquisitionRow[] rows = RowsOf(
            Runs.Read(60),
            Event(ChannelName.Ecg, AcquisitionKind.UnusableLeadOff, 20, 21),
            Event(ChannelName.Ecg, AcquisitionKind.UnusableSaturated, 20, 22),
            Event(ChannelName.Ecg, AcquisitionKind.UnusableLeadOff, 21, 25),
            Event(ChannelName.Red, AcquisitionKind.Setting, 5, 5, 12.5, SensorSetting.LedCurrentMa),
            Event(ChannelName.Red, AcquisitionKind.Setting, 6, 6, 2, SensorSetting.Gain),
            Event(ChannelName.Red, AcquisitionKind.Setting, 10, 10, 20, SensorSetting.LedCurrentMa),
            Event(ChannelName.Red, AcquisitionKind.Gap, 30, 31, 100),
            Event(ChannelName.Red, AcquisitionKind.Gap, 31, 31.5, 50),
            Event(ChannelName.Red, AcquisitionKind.LatePacket, 30, 31, 120),
            Event(ChannelName.Red, AcquisitionKind.LatePacket, 31, 32, 80),
            Event(ChannelName.Ecg, AcquisitionKind.UnusableLeadOff, 59, 60.004));

        Assert.That(rows, Is.EqualTo(new[]
        {
            Row(ChannelName.Red, "setting_led_current_ma", 5, 10, 12.5, "mA"),
            Row(ChannelName.Ecg, "unusable_saturated", 20, 22),
            Row(ChannelName.Ecg, "unusable_lead_off", 20, 25),
            Row(ChannelName.Red, "late_packet", 30, 31, 120, "ms"),
            Row(ChannelName.Red, "gap", 30, 31.5, 150, "samples"),
            Row(ChannelName.Red, "late_packet", 31, 32, 80, "ms"),
            Row(ChannelName.Ecg, "unusable_lead_off", 59, 60),
            Row(ChannelName.Red, "setting_led_current_ma", 10, 60, 20, "mA"),
            Row(ChannelName.Red, "setting_gain", 6, 60, 2),
        }));
    }

    [Test]
    public void AcquisitionFile_NothingHappens_IsWhatIsKnownBeforehand()
    {
        Scenario scenario = Runs.Read(30);
        using var expected = new MemoryStream();
        AcquisitionRows.Write(scenario, scenario.CreateStream().Format, expected);
        using var written = new MemoryStream();
        var file = new AcquisitionFile(written, scenario, scenario.CreateStream().Format);
        file.Complete();
        Assert.That(written.ToArray(), Is.EqualTo(expected.ToArray()));
    }

    [Test]
    public void OnAcquisition_AfterWarmUp_AllocatesNothing()
    {
        Scenario scenario = Runs.Read(100_000);
        StreamFormat format = scenario.CreateStream().Format;
        using var file = new AcquisitionFile(Stream.Null, scenario, format);
        var block = new SampleBlock(format, format.Clock.TicksPerSecond);
        int fed = 20_000;
        Feed(0, fed);
        Assert.That(Allocations.Least(() => Feed(fed, fed += 20_000)), Is.Zero);

        void Feed(int from, int to)
        {
            for (int i = from; i < to; i++)
            {
                block.Begin(i * format.Clock.TicksPerSecond, (i + 1) * format.Clock.TicksPerSecond);
                file.OnBlock(block);
                file.OnAcquisition(Event(ChannelName.Ecg, AcquisitionKind.UnusableSaturated, i, i + 0.5));
                file.OnAcquisition(Event(ChannelName.Red, AcquisitionKind.Setting, i, i, i % 7, SensorSetting.Gain));
            }
        }
    }

    // Three things that end at one instant, told last first, and one that ends before them and is told after them, as by a channel that is read later.
    [Test]
    public void OnBlock_WhatWasToldLongAgo_IsWrittenInOrderOfItsEnds()
    {
        Scenario scenario = Runs.Read(60);
        StreamFormat format = scenario.CreateStream().Format;
        using var written = new MemoryStream();
        using var file = new AcquisitionFile(written, scenario, format);
        using var known = new MemoryStream();
        AcquisitionRows.Write(scenario, format, known);
        file.OnAcquisition(Event(ChannelName.Red, AcquisitionKind.LatePacket, 3, 4, 120));
        file.OnAcquisition(Event(ChannelName.Ecg, AcquisitionKind.Gap, 3.5, 4, 25));
        file.OnAcquisition(Event(ChannelName.Ecg, AcquisitionKind.UnusableSaturated, 2, 4));
        file.OnAcquisition(Event(ChannelName.Infrared, AcquisitionKind.LatePacket, 3, 3.999, 120));
        var block = new SampleBlock(format, format.Clock.TicksPerSecond);
        var counts = new List<int>();
        for (int second = 4; second < 8; second++)
        {
            block.Begin(second * format.Clock.TicksPerSecond, (second + 1) * format.Clock.TicksPerSecond);
            file.OnBlock(block);
            counts.Add(file.WaitingCount);
        }

        file.Complete();
        Assert.That(counts, Is.EqualTo(new[] { 2, 2, 0, 0 }), "what still waits after a block: the two open ones do not count");
        Assert.That(Read(written).Skip(Read(known).Length), Is.EqualTo(new[]
        {
            Row(ChannelName.Infrared, "late_packet", 3, 3.999, 120, "ms"),
            Row(ChannelName.Ecg, "unusable_saturated", 2, 4),
            Row(ChannelName.Ecg, "gap", 3.5, 4, 25, "samples"),
            Row(ChannelName.Red, "late_packet", 3, 4, 120, "ms"),
        }));
    }

    private static AcquisitionRow[] RowsOf(Scenario scenario, params AcquisitionEvent[] events)
    {
        StreamFormat format = scenario.CreateStream().Format;
        using var known = new MemoryStream();
        AcquisitionRows.Write(scenario, format, known);
        using var written = new MemoryStream();
        var file = new AcquisitionFile(written, scenario, format);
        foreach (AcquisitionEvent happened in events)
        {
            file.OnAcquisition(happened);
        }

        file.Complete();
        return [.. Read(written).Skip(Read(known).Length)];
    }

    private static AcquisitionRow[] Read(MemoryStream stream)
    {
        using var reader = new AcquisitionCsvReader(new MemoryStream(stream.ToArray()), "acquisition.csv");
        return [.. reader.ReadAll()];
    }

    private static AcquisitionRow Row(ChannelName channel, string item, double begin, double end, double value = double.NaN, string unit = "") =>
        new(channel, item, Ns(begin), Ns(end), value, unit, "");

    private static AcquisitionEvent Event(
        ChannelName channel, AcquisitionKind kind, double begin, double end, double value = double.NaN, SensorSetting setting = default) =>
        new(channel, kind, Ns(begin), Ns(end), value, setting);

    private static long Ns(double seconds) => (long)Math.Round(seconds * Second);

    private static long Count(KeepSink sink, ChannelName channel, MarkKind kind, double from, double to)
    {
        // The second slot comes 250 µs after the first, unless set otherwise.
        long delay = channel == ChannelName.Infrared ? -250_000 : 0;
        return sink.Truth.Count(t => t.Channel == channel && t.Kind == kind && t.TimeNs + delay >= from * Second && t.TimeNs + delay < to * Second);
    }
}
