// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Files.Output;
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Replays;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Running;

namespace SensorSim.Studies.Tests.Replays;

/// <summary>Streams of a replay: begun later, repeated, stopped early, read from a folder.</summary>
[TestFixture]
public sealed class ReplaySourceTests
{
    private const string Noisy = "[device]\npacket_loss_percent = 5\n";

    [Test]
    public void Read_Later_IsTheRestCountedFromItsBegin()
    {
        ReplaySource whole = Open(20, Noisy);
        StreamFormat format = whole.Stream.Format;
        var later = new LaterStream(Open(20, Noisy), 7.3, default);

        // 250, 100 and 50 Hz have a sample in common every 20 ms.
        Assert.That(later.BeginTick, Is.EqualTo(format.Clock.TickAtOrAfter(7.3)));
        (int Channel, long Index, int Code)[] rest = [.. Samples(new ReplaySource(later, later.Truth))];
        Assert.That(rest, Has.Length.GreaterThan(5000));
        Assert.That(Sorted(rest), Is.EqualTo(Sorted(Samples(whole)
            .Where(s => s.Index * format.TicksPerSample(s.Channel) >= later.BeginTick)
            .Select(s => (s.Channel, s.Index - (later.BeginTick / format.TicksPerSample(s.Channel)), s.Code)))));
        Assert.That(
            Rows(later.Truth!).Select(t => t.TimeNs).Order(),
            Is.EqualTo(Rows(whole.Truth!).Where(t => t.TimeNs >= 7_300_000_000).Select(t => t.TimeNs - 7_300_000_000).Order()));
    }

    [Test]
    public void Later_DriftingClock_HasGainedItsPartAndIsScoredRight()
    {
        var later = new LaterStream(Open(60, "[device]\nclock_ppm = 200\nclock_offset_ms = 30\n"), 20, default);

        Assert.That(later.Clocks[0].OffsetNs, Is.EqualTo(30_000_000 + 4_000_000));
        ScoreReport report = new Runner(
            later, later.Truth, new LibraryDetector(), new Scorer(later, ScoredRows.Options(later.Format))).Run().Report!;
        EventScore beats = report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That(beats.ReferenceCount, Is.GreaterThan(20));
        Assert.That((beats.Missed, beats.Extra), Is.EqualTo((0L, 0L)));
        Assert.That(beats.TimingBiasMs, Is.EqualTo(0).Within(2));
    }

    [Test]
    public void Read_Repeated_IsTheStreamAgainWithIndicesThatGoOn()
    {
        ReplaySource once = Open(5);
        StreamFormat format = once.Stream.Format;
        (int Channel, long Index, int Code)[] samples = [.. Samples(once)];
        TruthEvent[] truth = [.. Rows(once.Truth!).Where(t => t.TimeNs < 5_000_000_000)];
        using var repeated = new RepeatedStream(() => Open(5));
        var stretch = new StoppableStream(repeated, format.Clock.TickAtOrAfter(12), default);

        (int Channel, long Index, int Code)[] read = [.. Samples(new ReplaySource(stretch, repeated.Truth))];

        Assert.That(repeated.RoundCount, Is.EqualTo(3));
        IEnumerable<(int, long, int)> expected = Enumerable.Range(0, 3)
            .SelectMany(round => samples.Select(s => (s.Channel, s.Index + (round * 5L * format.Channels[s.Channel].RateHz), s.Code)))
            .Where(s => s.Item2 < 12L * format.Channels[s.Channel].RateHz);
        Assert.That(Sorted(read), Is.EqualTo(Sorted(expected)));
        Assert.That(
            Rows(repeated.Truth!).Where(t => t.TimeNs < 10_000_000_000).OrderBy(t => t.TimeNs).Select(t => t.TimeNs),
            Is.EqualTo(truth.Concat(truth.Select(t => t with { TimeNs = t.TimeNs + 5_000_000_000 })).OrderBy(t => t.TimeNs).Select(t => t.TimeNs)));
    }

    [Test]
    public void Read_RepeatedForMoreThanADay_GoesOn()
    {
        // Rounds of a second make the seams; 90,000 of them are 25 hours. Only the clock is looked at.
        ReplaySource once = Open(1);
        using var repeated = new RepeatedStream(() => new ReplaySource(new EmptyStream(once.Stream.Format), null));
        var block = new SampleBlock(repeated.Format, repeated.Format.Clock.TicksPerSecond);
        long day = 90_000 * repeated.Format.Clock.TicksPerSecond;
        while (repeated.PositionTick < day)
        {
            repeated.Read(block, repeated.PositionTick + repeated.Format.Clock.TicksPerSecond);
        }

        Assert.That(repeated.RoundCount, Is.EqualTo(90_000));
        Assert.That(repeated.EndTick, Is.EqualTo(long.MaxValue));
    }

    [Test]
    public void Repeated_DriftingClock_IsRefused() => Assert.That(
        () => new RepeatedStream(() => Open(5, "[device]\nclock_ppm = 20\n")),
        Throws.TypeOf<NotSupportedException>().With.Message.Contains("--endless"));

    [Test]
    public void Run_StoppedEarly_ScoresAsIfTheRecordEndedThere()
    {
        using var stop = new CancellationTokenSource();
        ReplaySource source = Open(120);
        long second = source.Stream.Format.Clock.TicksPerSecond;
        var stream = new StoppableStream(source.Stream, source.Stream.EndTick, stop.Token);
        var scorer = new Scorer(stream, ScoredRows.Options(stream.Format) with { LeadInNs = 8_000_000_000 });
        var told = new KeepSink();
        RunOutcome stopped = new Runner(stream, source.Truth, new LibraryDetector(), scorer, told).Run(tick =>
        {
            if (tick >= 40 * second)
            {
                stop.Cancel();
                stream.Look();
            }
        });

        Scenario shorter = Runs.Read(40);
        SensorStream whole = shorter.CreateStream();
        var toldOfWhole = new KeepSink();
        RunOutcome ended = new Runner(
            whole, whole.Truth, new LibraryDetector(), new Scorer(whole, ScoredRows.Options(whole.Format) with { LeadInNs = 8_000_000_000 }), toldOfWhole).Run();

        Assert.That(stream.IsStopped, Is.True);
        Assert.That(told.Truth.OrderBy(t => (t.TimeNs, t.Channel, t.Kind)), Is.EqualTo(toldOfWhole.Truth.OrderBy(t => (t.TimeNs, t.Channel, t.Kind))));
        Assert.That(stopped.MarkCount, Is.EqualTo(ended.MarkCount));
        Assert.That(stopped.Report!.ScoredEndNs, Is.EqualTo(39_000_000_000));
        EventScore beats = stopped.Report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        EventScore expected = ended.Report!.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That(beats.ReferenceCount, Is.GreaterThan(25));
        Assert.That((beats.ReferenceCount, beats.Missed, beats.Extra), Is.EqualTo((expected.ReferenceCount, expected.Missed, expected.Extra)));
    }

    [Test]
    public void Read_RecordedFolder_ScoresAsTheRunDid()
    {
        string folder = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        try
        {
            Scenario scenario = Runs.Read(60, Noisy);
            Record(scenario, folder);
            RunOutcome live = Runs.Run(scenario, new LibraryDetector());

            using var recorded = new RecordedRun(folder);
            RunOutcome again = new Runner(
                recorded,
                recorded.Truth,
                new LibraryDetector(),
                new Scorer(recorded, ScoredRows.Options(recorded.Format))).Run();

            EventScore a = live.Report!.Find(ChannelName.Ecg, MarkKind.RPeak)!;
            EventScore b = again.Report!.Find(ChannelName.Ecg, MarkKind.RPeak)!;
            Assert.That(a.ReferenceCount, Is.GreaterThan(30));
            Assert.That(a.UnusableTruth, Is.GreaterThan(0));
            Assert.That(
                (b.ReferenceCount, b.Missed, b.Extra, b.TimingBiasMs, b.UnusableTruth),
                Is.EqualTo((a.ReferenceCount, a.Missed, a.Extra, a.TimingBiasMs, a.UnusableTruth)));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    // Ours have their stretches in the order of time; in a file of somebody else they come as the stream reaches them, too.
    [Test]
    public void Folder_StretchesOutOfOrder_AreToldInTheOrderOfTime()
    {
        string folder = Directory.CreateTempSubdirectory("stretches").FullName;
        try
        {
            string recording = Path.Combine(folder, "rec");
            Record(Runs.Read(10, Noisy), recording);
            File.WriteAllLines(
                Path.Combine(recording, "acquisition.csv"),
                ["channel,item,begin_ns,end_ns,value,unit,label", .. new[] { 5, 1, 7, 3 }.Select(s => $"ecg,unusable_lost,{s}000000000,{s}100000000,,,")]);
            using var recorded = new RecordedRun(recording);
            var block = new SampleBlock(recorded.Format, recorded.EndTick);
            recorded.Read(block, recorded.EndTick / 2);
            Assert.That(Begins(recorded), Is.EqualTo(new[] { 1, 3 }), "the one at 5 s begins after what was read");
            recorded.Read(block, recorded.EndTick);
            Assert.That(Begins(recorded), Is.EqualTo(new[] { 5, 7 }));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        static List<long> Begins(RecordedRun recorded)
        {
            var begins = new List<long>();
            while (recorded.Acquisition.TryTake(out AcquisitionEvent happened))
            {
                begins.Add(happened.BeginNs / 1_000_000_000);
            }

            return begins;
        }
    }

    private static void Record(Scenario scenario, string path)
    {
        using var folder = new OutputFolder(path);
        SensorStream stream = scenario.CreateStream();
        using var files = new FileSink(folder, stream.Format, withTruth: true, withDetections: false, withSamples: true);
        using var acquisition = new AcquisitionFile(folder.CreateFile("acquisition.csv"), scenario, stream.Format);
        new Runner(stream, stream.Truth, detector: null, scorer: null, files, acquisition).Run();
        files.Complete();
        acquisition.Complete();
        folder.Commit();
    }

    private static ReplaySource Open(double seconds, string more = "")
    {
        SensorStream stream = Runs.Read(seconds, more).CreateStream();
        return new ReplaySource(stream, stream.Truth);
    }

    private static List<(int Channel, long Index, int Code)> Samples(ReplaySource source)
    {
        var samples = new List<(int, long, int)>();
        var block = new SampleBlock(source.Stream.Format, source.Stream.Format.Clock.TicksPerSecond);
        while (source.Stream.PositionTick < source.Stream.EndTick)
        {
            source.Stream.Read(block, Math.Min(source.Stream.EndTick, source.Stream.PositionTick + source.Stream.Format.Clock.TicksPerSecond));
            for (int c = 0; c < block.Channels.Length; c++)
            {
                foreach (SampleRun run in block.Channels[c].Runs)
                {
                    for (int i = 0; i < run.Count; i++)
                    {
                        samples.Add((c, run.FirstIndex + i, block.Channels[c].Codes[run.Offset + i]));
                    }
                }
            }
        }

        return samples;
    }

    private static IEnumerable<(int Channel, long Index, int Code)> Sorted(IEnumerable<(int Channel, long Index, int Code)> samples) =>
        samples.OrderBy(s => s.Channel).ThenBy(s => s.Index);

    private static List<TruthEvent> Rows(EventRing<TruthEvent> ring)
    {
        var rows = new List<TruthEvent>();
        while (ring.TryTake(out TruthEvent row))
        {
            rows.Add(row);
        }

        return rows;
    }

    /// <summary>A second without samples.</summary>
    private sealed class EmptyStream(StreamFormat format) : IAcquiredStream
    {
        public StreamFormat Format => format;

        public long PositionTick { get; private set; }

        public long EndTick => format.Clock.TicksPerSecond;

        public EventRing<AcquisitionEvent> Acquisition { get; } = new(1);

        public IReadOnlyList<ChannelClock> Clocks { get; } = [.. format.Channels.Select(c => new ChannelClock(c.Name, 0, 0))];

        public void Read(SampleBlock block, long untilTick)
        {
            block.Begin(PositionTick, untilTick);
            PositionTick = untilTick;
        }
    }
}
