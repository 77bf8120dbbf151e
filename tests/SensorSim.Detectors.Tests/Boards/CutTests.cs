// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Boards;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Boards;

namespace SensorSim.Detectors.Tests.Boards;

/// <summary>
/// A cable that is pulled after each number of bytes, in either direction and in the middle of a frame: by count and not by time, so that each place comes up in every
/// run. The board remembers, so no sample is missing for it and nothing is there twice: each mark that comes is the library's, and what was under way is counted.
/// </summary>
[TestFixture]
public sealed class CutTests
{
    // Behind hello, format and start, where a lost link ends the run.
    private const int First = 1000;

    // Bytes that reach the board only when the cable is out (none to about four frames: more, and the host would wait for it), and bytes that it takes at once (half a
    // frame to all that there is).
    private static readonly (int Held, int Chunk)[] s_ways =
        [(0, 1024), (200, 130), (400, 300), (300, 130), (0, 130), (400, 1024), (130, 60), (400, 130), (200, 300)];

    private readonly StreamMaker _stream = new(20, StreamMaker.Channel(ChannelName.Ecg, 250), StreamMaker.Channel(ChannelName.Infrared, 100));
    private List<Mark> _expected = [];
    private long _hostBytes;
    private long _boardBytes;

    [OneTimeSetUp]
    public void RunOnceWithoutACut()
    {
        using var library = new LibraryDetector();
        _expected = Run(library);
        using var cable = new Cable();
        Assert.That(Run(cable.Detector), Is.EqualTo(_expected));
        (_hostBytes, _boardBytes) = (cable.HostBytes, cable.BoardBytes);
        Assert.That((_hostBytes, _boardBytes), Is.GreaterThan((20_000L, 5_000L)));
    }

    [TestCase(149)]
    [TestCase(2, Category = "Slow")]
    public void Process_HostIsCutAfterAnyByte_GivesTheMarksOfTheLibrary(int step) =>
        Check(First, _hostBytes, step, (at, held, chunk) => [new Cut(at, held, chunk, long.MaxValue)]);

    [TestCase(61)]
    [TestCase(1, Category = "Slow")]
    public void Process_BoardIsCutAfterAnyByte_GivesTheMarksOfTheLibrary(int step) =>
        Check(First, _boardBytes, step, (at, held, chunk) => [new Cut(long.MaxValue, 0, chunk, at)]);

    // The second time it is out before, while or soon after the host has asked how far the board is; the question itself is not held, since it is repeated until it is answered.
    [TestCase(149)]
    [TestCase(2, Category = "Slow")]
    public void Process_CutTwiceWithinATenthOfASecond_GivesTheMarksOfTheLibrary(int step) =>
        Check(First, _hostBytes - 1200, step, (at, held, chunk) => [new Cut(at, held, chunk, long.MaxValue), Second(1 + (at * 7 % 600), held, chunk)]);

    private static Cut Second(long at, int held, int chunk) => new(at, (int)Math.Clamp(at - 40, 0, held), chunk, long.MaxValue);

    private void Check(long first, long end, int step, Func<long, int, int, Cut[]> cuts)
    {
        int runs = 0;
        for (long at = first; at < end; at += step, runs++)
        {
            (int held, int chunk) = s_ways[runs % s_ways.Length];
            Cut[] made = cuts(at, held, chunk);
            using var cable = new Cable(made);
            List<Mark> actual = Run(cable.Detector);
            string where = string.Join(", then ", made);
            BoardCounts counts = cable.Detector.Counts;
            Assert.That(cable.Failure, Is.Null, where);
            Assert.That(actual, Is.Unique, where);
            Assert.That(actual, Is.EqualTo(_expected.Where(actual.Contains)), where);
            Assert.That((counts.Reconnects, counts.SessionsBegunAnew, counts.AnswersLost), Is.EqualTo(((long)made.Length, 0L, (long)(_expected.Count - actual.Count))), where);
        }

        Assert.That(runs, Is.GreaterThan(80));
        TestContext.Out.WriteLine($"{runs} runs");
    }

    // In one block: nobody waits for the end of a second, however many bytes are held.
    private List<Mark> Run(IDetector detector) => BoardRuns.Run(detector, _stream.Format, _stream.Fill, _stream.EndTick, () => _stream.EndTick).Marks;

    private sealed record Cut(long HostAt, int Held, int Chunk, long BoardAt);

    // A board, the host's detector, and a cable that is out so many times and then stays in.
    private sealed class Cable : IDisposable
    {
        private readonly Queue<Cut> _cuts;
        private readonly LibraryBoard _board;
        private CutLink _link;
        private CutEnd _end;

        public Cable(params Cut[] cuts)
        {
            _cuts = new Queue<Cut>(cuts);
            (_link, _end) = Next();
            _board = new LibraryBoard(_end);
            Detector = new BoardDetector(_link, new BoardOptions { Reopen = _ => Replug() });
        }

        public BoardDetector Detector { get; }

        public Exception? Failure => _board.Failure;

        public long HostBytes => _link.Written;

        public long BoardBytes => _end.Written;

        public void Dispose()
        {
            Detector.Dispose();
            _board.Dispose();
        }

        // The board has all the time that it wants with what is left in the old cable: the worst order of things.
        private CutLink Replug()
        {
            Assert.That(_end.WaitUntilRead(), Is.True);
            (_link, _end) = Next();
            _board.PlugIn(_end);
            return _link;
        }

        private (CutLink Link, CutEnd End) Next()
        {
            Cut cut = _cuts.TryDequeue(out Cut? next) ? next : new Cut(long.MaxValue, 0, 1024, long.MaxValue);
            (MemoryLink host, MemoryLink there) = MemoryLink.Pair();
            var end = new CutEnd(there, cut.Chunk, cut.BoardAt);
            return (new CutLink(host, end, cut.HostAt, cut.Held), end);
        }
    }
}
