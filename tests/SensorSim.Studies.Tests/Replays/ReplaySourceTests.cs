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
    public void SkipTo_Tick_LeavesTheRestAsItWas()
    {
        ReplaySource whole = Open(20);
        ReplaySource late = Open(20);
        long tick = whole.Stream.Format.Clock.TickAtOrAfter(7.3);

        late.SkipTo(tick);

        Assert.That(late.Stream.PositionTick, Is.EqualTo(tick));
        Assert.That(Samples(late), Is.EqualTo(Samples(whole).Where(s => s.Index * whole.Stream.Format.TicksPerSample(s.Channel) >= tick)));
        Assert.That(Rows(late.Truth!), Is.EqualTo(Rows(whole.Truth!).Where(t => t.TimeNs >= 7_300_000_000)));
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
        Assert.That(read.OrderBy(s => s.Channel).ThenBy(s => s.Index), Is.EqualTo(expected.OrderBy(s => s.Item1).ThenBy(s => s.Item2)));
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
        RunOutcome stopped = new Runner(stream, source.Truth, new LibraryDetector(), scorer).Run(tick =>
        {
            if (tick >= 40 * second)
            {
                stop.Cancel();
                stream.Look();
            }
        });

        Scenario shorter = Runs.Read(40);
        SensorStream whole = shorter.CreateStream();
        RunOutcome ended = new Runner(
            whole, whole.Truth, new LibraryDetector(), new Scorer(whole, ScoredRows.Options(whole.Format) with { LeadInNs = 8_000_000_000 })).Run();

        Assert.That(stream.IsStopped, Is.True);
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

    private static IEnumerable<(int Channel, long Index, int Code)> Samples(ReplaySource source)
    {
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
                        yield return (c, run.FirstIndex + i, block.Channels[c].Codes[run.Offset + i]);
                    }
                }
            }
        }
    }

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
