// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Detectors.Boards;
using SensorSim.Detectors.Control;
using SensorSim.Links.Pacing;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring.Report;
using SensorSim.Scoring.Statistics;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Tests.Boards;
using SensorSim.Tests.Shared;

namespace SensorSim.Studies.Tests.Running;

/// <summary>Boards in runs: scores, the closed loop, verdicts.</summary>
[TestFixture]
public sealed class BoardRunTests
{
    [Test]
    public void Run_Board_ScoresAsTheLibrary()
    {
        Scenario scenario = Runs.Read(30);
        RunOutcome expected = Runs.Run(scenario, new LibraryDetector());
        RunOutcome actual = Run(scenario, new BoardHabits(), new BoardOptions());
        Assert.That((actual.Verdict, actual.VerdictReason, actual.MarkCount), Is.EqualTo((Verdict.Answered, "", expected.MarkCount)));
        Assert.That(actual.DetectorName, Is.EqualTo("test board 1.0"));
        Assert.That(actual.Report!.Scores.Select(Figures), Is.EqualTo(expected.Report!.Scores.Select(Figures)));
    }

    [TestCase("mute", Verdict.Silent, "The detector gave no mark at all.")]
    [TestCase("babbles", Verdict.Babbling, "The detector gave more than 4096 marks in a second; the rest was dropped.")]
    [TestCase("lies", Verdict.Lying, "The detector gave a ")]
    [TestCase("dies", Verdict.Crashed, "The board is gone: The link in memory was closed, in the block that ends at 4.0 s.")]
    [TestCase("silent", Verdict.Hung, "The board did not take the samples of a block within 1 s, in the block that ends at 4.0 s.")]
    [TestCase("forgets", Verdict.Crashed, "The board has started anew in the middle of the stream, in the block that ends at 4.0 s.")]
    [TestCase("fault", Verdict.Crashed, "The board tells of a fault of its own: supply voltage low, in the block that ends at 4.0 s.")]
    [TestCase("miscounts", Verdict.Crashed, "The board says that it sent ")]
    public void Run_BadBoard_GetsItsVerdict(string behaviour, Verdict verdict, string reason)
    {
        BoardHabits habits = behaviour switch
        {
            "mute" => new BoardHabits { IsMute = true },
            "babbles" => new BoardHabits { Copies = 5000 },
            "lies" => new BoardHabits { Lies = true },
            "dies" => new BoardHabits { DiesAfter = 35 },
            "silent" => new BoardHabits { FallsSilentAfter = 35 },
            "forgets" => new BoardHabits { ForgetsAfter = 35 },
            "fault" => new BoardHabits { FaultAfter = 35 },
            _ => new BoardHabits { Miscounts = -1 },
        };
        RunOutcome outcome = Run(Runs.Read(12), habits, new BoardOptions { HangS = verdict == Verdict.Hung ? 1 : 20 });
        Assert.That(outcome.Verdict, Is.EqualTo(verdict), outcome.VerdictReason);
        Assert.That(outcome.VerdictReason, Does.StartWith(reason));
    }

    // Four times as fast as real time, 60 ms for a tenth of a second that comes every 25 ms: further and further behind.
    [Test]
    public void Run_BoardSlowerThanTheStream_IsLate()
    {
        var options = new BoardOptions { Pacer = new Pacer(TimeProvider.System, 4), DeadlineMs = 100 };
        RunOutcome outcome = Run(Runs.Read(5), new BoardHabits { SlowMs = 60 }, options);
        Assert.That(outcome.Verdict, Is.EqualTo(Verdict.Late), outcome.VerdictReason);
        Assert.That(outcome.VerdictReason, Does.Match("^The board gave [0-9]+ of [0-9]+ answers later than 100 ms after they were due, at the end of the stream\\.$"));
        Assert.That(outcome.FailedAtS, Is.Null);
        Assert.That(outcome.MarkCount, Is.Positive, "late answers are answers all the same");
    }

    // The requests of the control on the board reach the sensor and change the stream: all as with the library in this process.
    [Test]
    public void Run_ClosedLoop_IsThatOfTheLibrary()
    {
        string file = Path.Combine(CCompiler.Root, "waveforms", "scenarios", "walk-in-the-sun.toml");
        string text = File.ReadAllText(file);
        (List<Mark> marks, List<SettingChange> changes) expected = Close(ScenarioReader.ReadText(text, file), Controls.Around("light_level", new LibraryDetector()));
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, new BoardHabits { Around = d => Controls.Around("light_level", d) });
        using var detector = new BoardDetector(host, new BoardOptions());
        (List<Mark> marks, List<SettingChange> changes) actual = Close(ScenarioReader.ReadText(text, file), detector);

        Assert.That(expected.changes, Has.Count.GreaterThan(2));
        Assert.That(actual.changes, Is.EqualTo(expected.changes));
        Assert.That(actual.marks, Is.EqualTo(expected.marks));
    }

    private static (DetectionCounts, double?, double?, double?) Figures(EventScore score) =>
        (score.Counts, score.TimingBiasMs, score.TimingSdMs, score.LatencyMedianMs);

    private static (List<Mark> Marks, List<SettingChange> Changes) Close(Scenario scenario, IDetector detector)
    {
        SensorStream stream = scenario.CreateStream();
        var sink = new Keeper();
        var runner = new Runner(stream, stream.Truth, detector, scorer: null, sink) { Loop = new ControlLoop(stream) };
        detector.Start(stream.Format);
        while (stream.PositionTick < 20 * stream.Format.Clock.TicksPerSecond)
        {
            runner.Step();
        }

        return (sink.Marks, sink.Changes);
    }

    private static RunOutcome Run(Scenario scenario, BoardHabits habits, BoardOptions options)
    {
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, habits);
        using var detector = new BoardDetector(host, options);
        return Runs.Run(scenario, detector);
    }

    private sealed class Keeper : IRunSink
    {
        public List<Mark> Marks { get; } = [];

        public List<SettingChange> Changes { get; } = [];

        public void OnBlock(SampleBlock block)
        {
        }

        public void OnTruth(in TruthEvent truth)
        {
        }

        public void OnMark(in Mark mark) => Marks.Add(mark);

        public void OnSetting(in SettingChange change) => Changes.Add(change);
    }
}
