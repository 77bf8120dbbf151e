// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Sweeps;

[TestFixture]
public sealed class SweepRunnerTests
{

    [Test]
    public void Run_AnyNumberOfWorkers_GivesTheSameRowsInOrder()
    {
        StudyPlan plan = SmallStudy.Plan(detectors: 2);
        using var maker = new RunMaker(plan, SmallStudy.Factories(plan));
        RunRow[] alone = [.. Enumerable.Range(0, (int)plan.RunCount).Select(r => maker.Make(r))];
        Assert.That(alone.Select(r => r.Find(ChannelName.Ecg, Signals.Marks.MarkKind.RPeak)!.Counts).Distinct().Count(), Is.GreaterThan(2), "rows that differ");
        foreach (int workers in new[] { 1, 2, 5, 40 })
        {
            IReadOnlyList<RunRow> rows = SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), new MemoryLog(), workers);
            Assert.That(rows.Select(r => r.Run), Is.EqualTo(Enumerable.Range(0, (int)plan.RunCount)));
            Assert.That(rows.Zip(alone).All(p => RowBytesTests.Same(p.First, p.Second)), $"{workers} workers");
        }
    }

    [Test]
    public void Run_RowsThatAreThere_AreNotMadeAgain()
    {
        StudyPlan plan = SmallStudy.Plan();
        var log = new CountingLog();
        RunRow kept = SweepRunner.Run(plan, new ListPlanner([4]), SmallStudy.Factories(plan), log, 1)[0] with { SampleCount = 12345 };
        log = new CountingLog();
        log.Inner.Add(kept);
        var progress = new List<SweepProgress>();

        IReadOnlyList<RunRow> rows = SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), log, 2, progress.Add);

        Assert.That(rows[4].SampleCount, Is.EqualTo(12345));
        Assert.That(log.Added, Is.EquivalentTo(new long[] { 0, 1, 2, 3, 5 }));
        Assert.That(progress[^1], Is.EqualTo(new SweepProgress(5, 5, 5 * 14)));
    }

    /// <summary>A planner of small batches is asked with the rows of what it asked for only, never with others that the log has.</summary>
    [Test]
    public void Run_Batches_AreAskedWithTheirOwnRows()
    {
        StudyPlan plan = SmallStudy.Plan();
        var log = new CountingLog();
        var planner = new ListPlanner([5, 1], [0]);
        SweepRunner.Run(plan, new ListPlanner([2, 3]), SmallStudy.Factories(plan), log, 1);
        IReadOnlyList<RunRow> rows = SweepRunner.Run(plan, planner, SmallStudy.Factories(plan), log, 2);

        Assert.That(planner.Seen, Is.EqualTo(new[] { "", "1 5", "0 1 5" }));
        Assert.That(rows.Select(r => r.Run), Is.EqualTo(new long[] { 0, 1, 5 }));
    }

    [Test]
    public void Run_DetectorThatThrows_IsARowWithAVerdict()
    {
        StudyPlan plan = SmallStudy.Plan(detectors: 2);
        IDetectorFactory[] factories = [new SmallStudy.Factory("ours", d => d), new SmallStudy.Factory("thrower", d => new Thrower(d))];
        IReadOnlyList<RunRow> rows = SweepRunner.Run(plan, new FullPlanner(plan), factories, new MemoryLog(), 2);

        Assert.That(rows.Where(r => plan.KeyOf(r.Run).Detector == 0).Select(r => r.Verdict), Has.All.EqualTo(Verdict.Answered));
        Assert.That(rows.Where(r => plan.KeyOf(r.Run).Detector == 1).Select(r => r.Verdict), Has.All.EqualTo(Verdict.Crashed));
        Assert.That(rows[1].VerdictReason, Does.Contain("out of order"));
    }

    /// <summary>The second run fails first: the first one waits for it, then fails too. The mistake of the first is the one that is told.</summary>
    [Test]
    [CancelAfter(60000)]
    public void Run_TwoRunsFail_ThrowsTheMistakeOfTheFirst(CancellationToken cancellation)
    {
        StudyPlan plan = SmallStudy.Plan(detectors: 2);
        using var second = new ManualResetEventSlim();
        using var first = new ManualResetEventSlim();
        IDetectorFactory[] factories =
        [
            new SmallStudy.Factory("waits", _ =>
            {
                first.Set();
                second.Wait(cancellation);
                throw new NotSupportedException("first");
            }),
            new SmallStudy.Factory("fails", _ =>
            {
                first.Wait(cancellation);
                second.Set();
                throw new NotSupportedException("second");
            }),
        ];
        Assert.That(
            () => SweepRunner.Run(plan, new FullPlanner(plan), factories, new MemoryLog(), 2, null, cancellation),
            Throws.InstanceOf<NotSupportedException>().With.Message.EqualTo("first"));
    }

    [Test]
    public void Run_ImpossiblePoint_Throws()
    {
        StudyPlan plan = SmallStudy.Plan([12, 999], seeds: 1);
        Assert.That(
            () => SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), new MemoryLog(), 2), Throws.InstanceOf<ArgumentOutOfRangeException>());
    }

    [Test]
    public void Run_DetectorThatCannotWork_EndsTheSweep()
    {
        StudyPlan plan = SmallStudy.Plan();
        IDetectorFactory[] factories = [new SmallStudy.Factory("unable", _ => throw new NotSupportedException("no ECG"))];
        Assert.That(
            () => SweepRunner.Run(plan, new FullPlanner(plan), factories, new MemoryLog(), 2), Throws.InstanceOf<NotSupportedException>().With.Message.EqualTo("no ECG"));
    }

    [Test]
    public void Run_Cancelled_KeepsWhatIsDoneAndGoesOn()
    {
        StudyPlan plan = SmallStudy.Plan();
        using var interrupt = new CancellationTokenSource();
        using var isInterrupted = new ManualResetEventSlim();
        var log = new CountingLog();

        // From the fifth run on detectors wait until everybody knows of the interrupt: however fast the runs are, some are left. The token's own
        // handle is set before those linked to it are told, and a run that began between the two would be finished.
        int started = 0;
        void WaitAtTheFifth()
        {
            if (Interlocked.Increment(ref started) > 4)
            {
                isInterrupted.Wait();
            }
        }

        void InterruptAtTheSecond(SweepProgress progress)
        {
            if (progress.Made == 2)
            {
                interrupt.Cancel();
                isInterrupted.Set();
            }
        }

        IDetectorFactory[] factories = [new SmallStudy.Factory("waiting", _ => new WaitingDetector(WaitAtTheFifth))];
        Assert.That(
            () => SweepRunner.Run(plan, new FullPlanner(plan), factories, log, 2, InterruptAtTheSecond, interrupt.Token),
            Throws.InstanceOf<OperationCanceledException>());
        Assert.That(log.Added.Count, Is.InRange(2, 4));

        IReadOnlyList<RunRow> rows = SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), log, 2);
        IReadOnlyList<RunRow> straight = SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), new MemoryLog(), 1);
        Assert.That(log.Added, Has.Count.EqualTo(6).And.Unique);
        Assert.That(rows.Zip(straight).All(p => RowBytesTests.Same(p.First, p.Second)));
    }

    [Test]
    public void Run_LogThatFails_EndsTheSweep()
    {
        StudyPlan plan = SmallStudy.Plan();
        var log = new CountingLog { FailsAt = 3 };
        Assert.That(() => SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), log, 2), Throws.InstanceOf<IOException>());
        Assert.That(log.Added, Has.Count.EqualTo(2));
    }

    private sealed class WaitingDetector(Action atStart) : IDetector
    {
        private readonly LibraryDetector _library = new();

        public string Name => _library.Name;

        public void Start(StreamFormat format)
        {
            atStart();
            _library.Start(format);
        }

        public void Process(SampleBlock block, DetectorOutput output) => _library.Process(block, output);

        public void Flush(DetectorOutput output) => _library.Flush(output);

        public void Dispose() => _library.Dispose();
    }

    private sealed class CountingLog : IRunLog
    {
        public MemoryLog Inner { get; } = new();

        public List<long> Added { get; } = [];

        public int FailsAt { get; init; } = int.MaxValue;

        public RunRow? Find(long run) => Inner.Find(run);

        public void Add(RunRow row)
        {
            if (Added.Count + 1 >= FailsAt)
            {
                throw new IOException("No space left on device");
            }

            Inner.Add(row);
            Added.Add(row.Run);
        }

        public void Tick() => Inner.Tick();
    }

    private sealed class ListPlanner(params long[][] batches) : IRunPlanner
    {
        private int _next;

        public List<string> Seen { get; } = [];

        public IReadOnlyList<long> NextBatch(IReadOnlyList<RunRow> rows)
        {
            Seen.Add(string.Join(' ', rows.Select(r => r.Run)));
            return _next < batches.Length ? batches[_next++] : [];
        }
    }

    private sealed class Thrower(LibraryDetector inner) : IDetector
    {
        public string Name => inner.Name;

        public void Start(StreamFormat format) => inner.Start(format);

        public void Process(SampleBlock block, DetectorOutput output) => throw new InvalidOperationException("out of order");

        public void Flush(DetectorOutput output) => inner.Flush(output);

        public void Dispose() => inner.Dispose();
    }
}
