// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Boards;
using SensorSim.Detectors.Control;
using SensorSim.Links.Damage;
using SensorSim.Links.Frames;
using SensorSim.Links.Pacing;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Boards;
using SensorSim.Tests.Shared;

namespace SensorSim.Detectors.Tests.Boards;

/// <summary>A board with the project's library on it says what the library says in this process.</summary>
[TestFixture]
public sealed class BoardDetectorTests
{
    private const double LongestS = 40;

    private static IEnumerable<string> Scenarios() => Directory
        .EnumerateFiles(Path.Combine(CCompiler.Root, "waveforms", "scenarios"), "*.toml")
        .Select(Path.GetFileName)
        .Order(StringComparer.Ordinal)!;

    // Status, gaps, clocks, two devices, all that there is: the same marks in all fields, blocks of a second.
    [TestCaseSource(nameof(Scenarios))]
    public void Run_Scenario_GivesTheMarksOfTheLibraryInAllFields(string file)
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(CCompiler.Root, "waveforms", "scenarios", file));
        using var library = new LibraryDetector();
        BoardRuns.Answers expected = Run(library, scenario);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        using var detector = new BoardDetector(host, new BoardOptions());
        BoardRuns.Answers actual = Run(detector, scenario);

        Assert.That(board.Failure, Is.Null);
        Assert.That(expected.Marks, Is.Not.Empty);
        Assert.That(actual.Marks, Is.EqualTo(expected.Marks));
        Assert.That(detector.Counts.AnswersLost, Is.Zero);
        Assert.That(detector.Counts.AnswersAnnounced, Is.EqualTo(expected.Marks.Count));
    }

    // Both ends count the same on a line without faults; nothing was sent twice.
    [Test]
    public void Run_SoundLine_CountsOfBothEndsAgree()
    {
        StreamMaker stream = TwoChannels(20);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        using var detector = new BoardDetector(host, new BoardOptions());
        BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => stream.Format.Clock.TicksPerSecond);

        BoardCounts counts = detector.Counts;
        Assert.That(counts.BoardAccepted, Is.EqualTo(counts.FramesSent));
        Assert.That((counts.FramesDamaged, counts.FramesMissing, counts.FramesRepeated), Is.EqualTo((0L, 0L, 0L)));
        Assert.That((counts.BoardDamaged, counts.BoardMissing, counts.BoardRepeated), Is.EqualTo((0L, 0L, 0L)));
        Assert.That(board.SamplesFrames, Is.EqualTo(200), "tenths of a second");
        Assert.That(counts.FramesSent, Is.EqualTo(200 + 4 + board.Repeats), "hello, format, start, stop; more only where the machine was slow");
        Assert.That(counts.BytesSent, Is.GreaterThan(200 * 60));
        Assert.That(detector.About, Is.EqualTo(new BoardIdentity("test board 1.0", 1, 240, 8, 8128)));
        Assert.That(detector.Figures, Does.Contain(new BoardFigure(BoardFigures.StateBytes, 0, 8128)));
    }

    // Blocks of a tick to three seconds, lost samples, lead-off, saturation: the library itself is the judge.
    [TestCase(1u)]
    [TestCase(3u)]
    [TestCase(8u)]
    public void Run_AnyCutAndGaps_GivesTheMarksOfTheLibrary(uint credit)
    {
        StreamMaker stream = TwoChannels(30);
        stream.Lose(0, 1000, 1);
        stream.Lose(0, 1500, 700);
        stream.Lose(1, 900, 333);
        stream.Flag(0, 4000, 60, SampleStatus.LeadOffPositive);
        stream.Flag(1, 2000, 1, SampleStatus.Saturated);
        stream.Lose(0, 5000, 600);
        stream.Lose(1, 2000, 260);
        using var library = new LibraryDetector();
        BoardRuns.Answers expected = BoardRuns.Run(library, stream.Format, stream.Fill, stream.EndTick, () => stream.Format.Clock.TicksPerSecond);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, new BoardHabits { Credit = credit });
        using var detector = new BoardDetector(host, new BoardOptions());
        var random = new Random((int)credit);
        long[] lengths = [1, 7, 100, 500, 1499];
        BoardRuns.Answers actual = BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => lengths[random.Next(lengths.Length)]);

        Assert.That(board.Failure, Is.Null);
        Assert.That(actual.Marks, Is.EqualTo(expected.Marks));
    }

    // Another run on the same board: a new session on the same line, nothing left over.
    [Test]
    public void Start_Again_IsANewSession()
    {
        StreamMaker stream = TwoChannels(15);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        using var detector = new BoardDetector(host, new BoardOptions());
        long second = stream.Format.Clock.TicksPerSecond;
        List<Mark> first = BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => second).Marks;
        List<Mark> again = BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => second).Marks;

        Assert.That(again, Is.EqualTo(first));
        Assert.That(board.Sessions, Is.EqualTo(2));
        Assert.That(detector.Counts.BoardAccepted, Is.EqualTo(detector.Counts.FramesSent), "counts begin anew");
        Assert.That(detector.Counts.AnswersReceived, Is.EqualTo(again.Count));
    }

    [Test]
    public void Connect_ThenStart_SaysHelloOnce()
    {
        StreamMaker stream = TwoChannels(12);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        using var detector = new BoardDetector(host, new BoardOptions());
        Assert.That(detector.Connect().Detector, Is.EqualTo("test board 1.0"));
        BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => stream.Format.Clock.TicksPerSecond);
        Assert.That(board.Sessions, Is.EqualTo(1));
        Assert.That(detector.Counts.FramesSent, Is.EqualTo(120 + 4 + board.Repeats));
    }

    // The control around the detector runs on the board; what it asks for comes back in the same blocks.
    [Test]
    public void Run_ControlOnTheBoard_AsksForTheSameSettings()
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(CCompiler.Root, "waveforms", "scenarios", "walk-in-the-sun.toml"));
        using IDetector local = Controls.Around(LightLevelControl.Word, new LibraryDetector());
        BoardRuns.Answers expected = Run(local, scenario, 10);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, new BoardHabits { Around = d => Controls.Around(LightLevelControl.Word, d) });
        using var detector = new BoardDetector(host, new BoardOptions());
        BoardRuns.Answers actual = Run(detector, scenario, 10);

        Assert.That(board.Failure, Is.Null);
        Assert.That(expected.Requests, Has.Count.GreaterThan(2));
        Assert.That(actual.Requests, Is.EqualTo(expected.Requests));
        Assert.That(actual.Marks, Is.EqualTo(expected.Marks));
    }

    [Test]
    public void TellSetting_BeforeABlock_ReachesTheBoard()
    {
        StreamMaker stream = TwoChannels(2);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        using var detector = new BoardDetector(host, new BoardOptions());
        var change = new SettingsRequest(1, SensorSetting.LedCurrentMa, 12_500, 250);
        detector.Start(stream.Format);
        Assert.That(detector.TellSetting(change), Is.True);
        var block = new SampleBlock(stream.Format, stream.EndTick);
        stream.Fill(block, 0, 500);
        detector.Process(block, new DetectorOutput());
        Assert.That(board.Settings, Is.EqualTo(new[] { change }));
    }

    [Test]
    public void Process_BlockAfterBlock_AllocatesNothing()
    {
        StreamMaker stream = TwoChannels(60);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        using var detector = new BoardDetector(host, new BoardOptions { Pacer = new Pacer(TimeProvider.System, 10_000) });
        detector.Start(stream.Format);
        var output = new DetectorOutput();
        var block = new SampleBlock(stream.Format, stream.EndTick);
        long tick = 0;
        void Block()
        {
            stream.Fill(block, tick, tick += 250);
            detector.Process(block, output);
            while (output.Marks.TryTake(out _))
            {
            }
        }

        for (int i = 0; i < 20; i++)
        {
            Block();
        }

        Assert.That(Allocations.Least(() =>
        {
            for (int i = 0; i < 20; i++)
            {
                Block();
            }
        }), Is.Zero);
        Assert.That(detector.Latency.Count, Is.GreaterThan(20));
    }

    // Faults of all kinds both ways: the run ends, both ends count what was done to the frames, and what is lost is known to be lost.
    [TestCase(1UL)]
    [TestCase(2UL)]
    [TestCase(3UL)]
    public void Run_DamagedLine_EndsAndCountsAgree(ulong seed)
    {
        StreamMaker stream = TwoChannels(60);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        var damaged = new DamagedLink(host, DamagePlan.Parse("drop=2,corrupt=2,duplicate=2", seed));
        using var detector = new BoardDetector(damaged, new BoardOptions());
        BoardRuns.Answers answers = BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => stream.Format.Clock.TicksPerSecond);

        BoardCounts counts = detector.Counts;
        Assert.That(board.Failure, Is.Null);
        Assert.That(counts.AnswersReceived, Is.EqualTo(answers.Marks.Count));
        Assert.That(counts.AnswersAnnounced, Is.EqualTo(board.MarksSent));
        Assert.That(counts.AnswersLost, Is.EqualTo(board.MarksSent - answers.Marks.Count));

        // The copy of the very last frame may still be under way.
        Assert.That(() => detector.Counts.FramesDamaged, Is.EqualTo(damaged.FromBoard.BrokenPieces).After(2000, 20));
        Assert.That(() => detector.Counts.FramesRepeated, Is.EqualTo(damaged.FromBoard.Repeats).After(2000, 20));
        Assert.That(() => board.Counts.Damaged, Is.EqualTo(damaged.ToBoard.BrokenPieces).After(2000, 20));
        Assert.That(() => board.Counts.Repeated, Is.EqualTo(damaged.ToBoard.Repeats).After(2000, 20));
        Assert.That(damaged.ToBoard.Dropped + damaged.ToBoard.Corrupted, Is.GreaterThan(5), "else it shows nothing");
        Assert.That(answers.Marks, Has.Count.GreaterThan(100));
        Assert.That(answers.Marks, Is.Ordered.By(nameof(Mark.EmittedTick)));
    }

    private static BoardRuns.Answers Run(IDetector detector, Scenario scenario, int blocksPerSecond = 1)
    {
        SensorStream stream = scenario.CreateStream();
        long end = Math.Min(stream.EndTick, (long)(LongestS * stream.Format.Clock.TicksPerSecond));
        return BoardRuns.Run(
            detector,
            stream.Format,
            (block, begin, until) =>
            {
                stream.Read(block, until);
                while (stream.Truth.TryTake(out _))
                {
                }

                while (stream.Acquisition.TryTake(out _))
                {
                }
            },
            end,
            () => stream.Format.Clock.TicksPerSecond / blocksPerSecond);
    }

    private static StreamMaker TwoChannels(double durationS) =>
        new(durationS, StreamMaker.Channel(ChannelName.Ecg, 250), StreamMaker.Channel(ChannelName.Infrared, 100));
}
