// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Boards;
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Boards;

namespace SensorSim.Detectors.Tests.Boards;

/// <summary>Boards that behave badly: what is said of them, in one sentence, and of what kind it is.</summary>
[TestFixture]
public sealed class BadBoardTests
{
    // Short where the end of a time is waited for, so that a busy machine changes no other verdict.
    private static readonly BoardOptions s_impatient = new() { HangS = 0.8 };

    // Before anything was understood it is the line's fault, not the detector's.
    [Test]
    public void Connect_NobodyAnswers_IsUnavailable() => Assert.That(
        () => Connect(new BoardHabits { IsSilent = true }),
        Throws.TypeOf<LinkUnavailableException>().With.Message.Contains("Nothing came from the link in memory"));

    [Test]
    public void Connect_OnlyGarbage_CountsTheBytes() => Assert.That(
        () => Connect(new BoardHabits { RavesAfter = 0 }),
        Throws.TypeOf<LinkUnavailableException>().With.Message.Match("^No valid frame in [0-9]+ bytes from the link in memory"));

    [Test]
    public void Connect_AnotherVersion_IsSaid() => Assert.That(
        () => Connect(new BoardHabits { SpeaksAnotherVersion = true }),
        Throws.TypeOf<LinkUnavailableException>().With.Message.EqualTo(
            "The link in memory: the other end speaks another version of the link protocol; this program speaks 1."));

    [Test]
    public void Connect_NoCredit_IsSaid() => Assert.That(
        () => Connect(new BoardHabits { Credit = 0 }),
        Throws.TypeOf<LinkUnavailableException>().With.Message.Contains("can hold no frame of samples"));

    [Test]
    public void Connect_ChoosesAnotherVersion_IsSaid() => Assert.That(
        () => Connect(new BoardHabits { Version = 9 }),
        Throws.TypeOf<LinkUnavailableException>().With.Message.EqualTo(
            "The link in memory: the other end speaks version 9 of the link protocol; this program speaks 1."));

    [Test]
    public void Connect_TakesNoFullPayload_IsSaid() => Assert.That(
        () => Connect(new BoardHabits { LargestPayload = 239 }),
        Throws.TypeOf<LinkUnavailableException>().With.Message.EqualTo(
            "The link in memory: the other end takes payloads up to 239 bytes; it must take 240."));

    // A name that would drive a terminal: an escape sequence, a bell, a right-to-left override, a zero-width space, two lines.
    [Test]
    public void Connect_NameThatDrivesATerminal_IsOneHarmlessLine()
    {
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, new BoardHabits { Detector = "wrist\u001b]0;x\u0007\u202e\u200b2\r\n.3" });
        using var detector = new BoardDetector(host, new BoardOptions());
        Assert.That(detector.Connect().Detector, Is.EqualTo("wrist ]0;x 2 .3"));
    }

    [Test]
    public void Process_SaysStoppedWithoutBeingTold_Crashes() => Assert.That(
        () => Run(new BoardHabits { ClaimsStopAfter = 35 }),
        Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo("The detector says that it has stopped, and nobody told it to"));

    [TestCase(false)]
    [TestCase(true)]
    public void Start_FormatThatTheBoardRefuses_GivesItsReason(bool namesNoFrame)
    {
        var stream = new StreamMaker(1, StreamMaker.Channel(ChannelName.Ecg, 50));
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, new BoardHabits { NamesNoFrame = namesNoFrame });
        using var detector = new BoardDetector(host, new BoardOptions());
        Assert.That(
            () => detector.Start(stream.Format),
            Throws.TypeOf<NotSupportedException>().With.Message.EqualTo("The board refuses (FormatRefused): Channel ecg has 50 Hz; the library works from 100 to 1000 Hz."));
    }

    [Test]
    public void Process_FallsSilent_Hangs() => Assert.That(
        () => Run(new BoardHabits { FallsSilentAfter = 35 }, options: s_impatient),
        Throws.TypeOf<DetectorHungException>().With.Message.EqualTo("The board did not take the samples of a block within 0.8 s"));

    [Test]
    public void Process_FallsSilentWithoutCredit_Hangs() => Assert.That(
        () => Run(new BoardHabits { FallsSilentAfter = 35, Credit = 2 }, options: s_impatient),
        Throws.TypeOf<DetectorHungException>().With.Message.EqualTo("The board took no more samples within 0.8 s"));

    [Test]
    public void Flush_FallsSilentAtTheEnd_Hangs() => Assert.That(
        () => Run(new BoardHabits { FallsSilentAfter = 120 }, options: s_impatient),
        Throws.TypeOf<DetectorHungException>().With.Message.EqualTo("The board did not stop within 0.8 s").Or.Message.Contains("did not take"));

    [Test]
    public void Process_GoesAway_Crashes() => Assert.That(
        () => Run(new BoardHabits { DiesAfter = 35 }),
        Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo("The board is gone: The link in memory was closed"));

    [Test]
    public void Process_StartsAnew_Crashes() => Assert.That(
        () => Run(new BoardHabits { ForgetsAfter = 35 }),
        Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo("The board has started anew in the middle of the stream"));

    [Test]
    public void Process_Fault_IsTold() => Assert.That(
        () => Run(new BoardHabits { FaultAfter = 35 }),
        Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo("The board tells of a fault of its own: supply voltage low"));

    // Garbage after it had spoken is the board's doing.
    [Test]
    public void Process_RavesInTheMiddle_Crashes() => Assert.That(
        () => Run(new BoardHabits { RavesAfter = 35 }, options: s_impatient),
        Throws.TypeOf<DetectorCrashedException>().With.Message.Match("^The board sent [0-9]+ bytes without a valid frame among them$"));

    [Test]
    public void Flush_MoreMarksThanAnnounced_Crashes() => Assert.That(
        () => Run(new BoardHabits { Miscounts = -3 }),
        Throws.TypeOf<DetectorCrashedException>().With.Message.Match("^The board says that it sent [0-9]+ marks, and [0-9]+ came$"));

    [Test]
    public void Flush_FewerMarksThanAnnounced_AreLost()
    {
        using BoardDetector detector = Run(new BoardHabits { Miscounts = 3 });
        Assert.That(detector.Counts.AnswersLost, Is.EqualTo(3));
    }

    // Numbers that no board counts to: the sum stays the largest there is.
    [Test]
    public void Flush_LostAnswersBeyondAllNumbers_DoNotOverflow()
    {
        using BoardDetector detector = Run(new BoardHabits
        {
            Miscounts = 3,
            Figures = [new BoardFigure(BoardFigures.AnswersLost, 0, long.MaxValue), new BoardFigure(BoardFigures.AnswersLost, 1, long.MaxValue)],
        });
        Assert.That(detector.Counts.AnswersLost, Is.EqualTo(long.MaxValue));
    }

    [Test]
    public void Flush_FigureBelowZero_Crashes() => Assert.That(
        () => Run(new BoardHabits { Figures = [new BoardFigure(BoardFigures.AnswersLost, 1, long.MinValue)] }),
        Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo(
            "The detector sent a frame of type 96 whose content is not what docs/link-protocol.md says"));

    // Slow is not hanging, as long as it goes on: 3 s for a block, and 2 s allowed.
    [Test]
    public void Process_SlowButSteady_DoesNotHang()
    {
        using BoardDetector detector = Run(new BoardHabits { SlowMs = 300, Credit = 2 }, 2, new BoardOptions { HangS = 2 });
        Assert.That(detector.Counts.AnswersLost, Is.Zero);
        Assert.That(detector.Latency.JudgedCount, Is.Zero, "nobody holds it to real time");
    }

    [Test]
    public void Log_OfTheBoard_IsPassedOnAndBounded()
    {
        var lines = new List<BoardLogLine>();
        using BoardDetector detector = Run(new BoardHabits { LogLines = 10 }, options: new BoardOptions { OnLog = lines.Add });
        Assert.That(lines, Has.Count.EqualTo(1200));
        Assert.That(lines[0].Text, Is.EqualTo("frame 1"));
        Assert.That(detector.Log, Has.Count.EqualTo(1000));
        Assert.That(detector.LogLinesDropped, Is.EqualTo(200));
    }

    private static void Connect(BoardHabits habits)
    {
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, habits);
        using var detector = new BoardDetector(host, new BoardOptions { HelloS = habits.IsSilent || habits.RavesAfter is not null ? 0.6 : 10 });
        detector.Connect();
    }

    private static BoardDetector Run(BoardHabits habits, double seconds = 12, BoardOptions? options = null)
    {
        var stream = new StreamMaker(seconds, StreamMaker.Channel(ChannelName.Ecg, 250), StreamMaker.Channel(ChannelName.Infrared, 100));
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, habits);
        var detector = new BoardDetector(host, options ?? new BoardOptions());
        try
        {
            BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => stream.Format.Clock.TicksPerSecond);
            return detector;
        }
        catch
        {
            detector.Dispose();
            throw;
        }
    }
}
