// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Boards;
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Boards;

namespace SensorSim.Detectors.Tests.Boards;

/// <summary>Links that are lost and come back, and boards that forget meanwhile.</summary>
[TestFixture]
public sealed class ReplugTests
{
    // The cable is out between two frames, twice; the board remembers, so no sample is missing and nothing is there twice. What the board was
    // just sending is gone with the cable, and is known to be.
    [TestCase(30, 70)]
    [TestCase(5, 6)]
    [TestCase(104, 109)]
    public void Process_LinkIsLostAndBack_GivesTheMarksOfTheLibrary(int first, int second)
    {
        StreamMaker stream = Stream();
        using var library = new LibraryDetector();
        List<Mark> expected = Run(library, stream);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        var cuts = new Queue<int>([second - first, int.MaxValue]);
        var options = new BoardOptions
        {
            Reopen = _ =>
            {
                (MemoryLink again, MemoryLink back) = MemoryLink.Pair();
                board.PlugIn(back);
                return new WriteCutLink(again, cuts.Dequeue());
            },
        };
        using var detector = new BoardDetector(new WriteCutLink(host, first), options);
        List<Mark> actual = Run(detector, stream);

        Assert.That(board.Failure, Is.Null);
        Assert.That(actual, Is.Unique);
        Assert.That(actual, Is.EqualTo(expected.Where(actual.Contains)), "in order, each as it should be");
        Assert.That(actual, Has.Count.GreaterThan(expected.Count - 40));
        BoardCounts counts = detector.Counts;
        Assert.That((counts.Reconnects, counts.SessionsBegunAnew, counts.AnswersLost), Is.EqualTo((2L, 0L, (long)(expected.Count - actual.Count))));
    }

    // The cable is out when the board is told to stop: it is waited for like any other time, and no answer is missing.
    [Test]
    public void Flush_LinkIsLostAndBack_GivesTheMarksOfTheLibrary()
    {
        StreamMaker stream = Stream();
        using var library = new LibraryDetector();
        List<Mark> expected = Run(library, stream);
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        var options = new BoardOptions
        {
            Reopen = _ =>
            {
                (MemoryLink again, MemoryLink back) = MemoryLink.Pair();
                board.PlugIn(back);
                return again;
            },
        };
        using var detector = new BoardDetector(new WriteCutLink(host, int.MaxValue) { CutsAt = FrameType.Stop }, options);
        List<Mark> actual = Run(detector, stream);

        Assert.That(actual, Is.EqualTo(expected));
        Assert.That((detector.Counts.Reconnects, detector.Counts.SessionsBegunAnew, detector.Counts.AnswersLost), Is.EqualTo((1L, 0L, 0L)));
    }

    // It comes back as a board that has been reset: a new session from the first sample that had not been sent, for it begins there.
    [Test]
    public void Process_BoardForgotMeanwhile_BeginsAnewWithTheNextSample()
    {
        StreamMaker stream = Stream();
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var before = new LibraryBoard(end);
        LibraryBoard? after = null;
        var options = new BoardOptions
        {
            Reopen = _ =>
            {
                (MemoryLink again, MemoryLink back) = MemoryLink.Pair();
                after = new LibraryBoard(back);
                return again;
            },
        };
        using var detector = new BoardDetector(new WriteCutLink(host, 83), options);
        List<Mark> actual = Run(detector, stream);
        using LibraryBoard second = after!;

        // 3 frames before the first samples: 80 frames were written, 8.0 s of the stream.
        Assert.That((detector.Counts.Reconnects, detector.Counts.SessionsBegunAnew), Is.EqualTo((1L, 1L)));
        using var library = new LibraryDetector();
        List<Mark> early = Run(library, stream, 0, 8);
        List<Mark> late = Run(library, stream, 8, 20);
        Mark[] expectedLate = [.. late];
        Assert.That(actual.Where(m => m.EmittedTick > 8 * stream.Format.Clock.TicksPerSecond), Is.EqualTo(expectedLate.Where(m => m.EmittedTick > 8 * stream.Format.Clock.TicksPerSecond)));
        Assert.That(actual.TakeWhile(m => m.EmittedTick <= 7 * stream.Format.Clock.TicksPerSecond), Is.EqualTo(early.TakeWhile(m => m.EmittedTick <= 7 * stream.Format.Clock.TicksPerSecond)));
        Assert.That(expectedLate, Is.Not.Empty);
    }

    // A reset without losing the link is noticed by trouble 4.
    [Test]
    public void Process_ResetOnALivingLink_BeginsAnewWhenThatIsAllowed()
    {
        StreamMaker stream = Stream();
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end, new BoardHabits { ForgetsAfter = 55 });
        using var detector = new BoardDetector(host, new BoardOptions { Reopen = _ => null });
        List<Mark> actual = Run(detector, stream);
        Assert.That(detector.Counts.SessionsBegunAnew, Is.EqualTo(1));
        Assert.That(actual.Where(m => m.EmittedTick > 14 * stream.Format.Clock.TicksPerSecond), Is.Not.Empty);

        // What a board says of the time before its session (a gate that shuts at 1 s, since nothing came) is counted, and no answer.
        Assert.That(detector.Counts.AnswersReceived, Is.GreaterThan(actual.Count));
        Assert.That(detector.Counts.AnswersAnnounced, Is.LessThanOrEqualTo(detector.Counts.AnswersReceived));
        Assert.That(detector.Counts.AnswersLost, Is.Zero);
    }

    [Test]
    public void Process_LinkDoesNotComeBack_SaysHowLongItWaited()
    {
        StreamMaker stream = Stream();
        (MemoryLink host, MemoryLink end) = MemoryLink.Pair();
        using var board = new LibraryBoard(end);
        using var detector = new BoardDetector(new WriteCutLink(host, 40), new BoardOptions { Reopen = _ => null, ReopenS = 2.5 });
        Assert.That(
            () => Run(detector, stream),
            Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo("The board is gone and did not come back within 2.5 s: the cable is out"));
    }

    private static StreamMaker Stream() => new(20, StreamMaker.Channel(ChannelName.Ecg, 250), StreamMaker.Channel(ChannelName.Infrared, 100));

    private static List<Mark> Run(IDetector detector, StreamMaker stream) =>
        BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => stream.Format.Clock.TicksPerSecond).Marks;

    // A detector that is started in the middle: what comes before is a gap.
    private static List<Mark> Run(LibraryDetector detector, StreamMaker stream, int fromS, int untilS)
    {
        long second = stream.Format.Clock.TicksPerSecond;
        detector.Start(stream.Format);
        var output = new DetectorOutput(100_000);
        var block = new SampleBlock(stream.Format, stream.EndTick);
        for (int s = fromS; s < untilS; s++)
        {
            stream.Fill(block, s * second, (s + 1) * second);
            detector.Process(block, output);
        }

        detector.Flush(output);
        var marks = new List<Mark>();
        while (output.Marks.TryTake(out Mark mark))
        {
            marks.Add(mark);
        }

        return marks;
    }

    // Lost after so many writes; what the board had sent by then is still read.
    private sealed class WriteCutLink(ILink inner, int writes) : ILink
    {
        private int _left = writes;

        /// <summary>Lost, too, when a frame of this type is to be sent.</summary>
        public FrameType? CutsAt { get; init; }

        public string Name => inner.Name;

        public long? BytesPerSecond => null;

        public int Read(Span<byte> buffer, TimeSpan atMost)
        {
            try
            {
                return inner.Read(buffer, atMost);
            }
            catch (LinkLostException e)
            {
                throw new LinkLostException("the cable is out", e);
            }
        }

        public void Write(ReadOnlySpan<byte> bytes)
        {
            // The type stands behind the code in front and the version: neither of the three is 0 in what a host sends.
            if (_left-- == 0 || (CutsAt is FrameType type && bytes[2] == (byte)type && bytes[1] == FrameLimits.Version))
            {
                inner.Dispose();
                throw new LinkLostException("the cable is out");
            }

            inner.Write(bytes);
        }

        public void Dispose() => inner.Dispose();
    }
}
