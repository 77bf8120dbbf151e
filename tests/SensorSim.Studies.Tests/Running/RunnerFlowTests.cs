// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Detectors;
using SensorSim.Tests.Shared;

namespace SensorSim.Studies.Tests.Running;

/// <summary>What passes through a run, and how it ends.</summary>
[TestFixture]
public sealed class RunnerFlowTests
{
    [Test]
    public void Run_Blocks_CoverTheStreamOnce()
    {
        var keep = new KeepSink();
        long last = 0;
        SensorStream stream = Runs.Read(7.3).CreateStream();

        RunOutcome outcome = new Runner(stream, stream.Truth, detector: null, scorer: null, keep).Run(tick => last = tick);

        // 7.3 s at 250, 3 x 100 and 3 x 50 Hz, on a clock of 500 ticks a second.
        Assert.That(outcome.SampleCount, Is.EqualTo(1825 + (3 * 730) + (3 * 365)));
        Assert.That(last, Is.EqualTo(3650));
        Assert.That(keep.Blocks[0].Begin, Is.Zero);
        Assert.That(keep.Blocks.Zip(keep.Blocks.Skip(1)), Has.All.Matches<((long, long End) First, (long Begin, long) Second)>(p => p.First.End == p.Second.Begin));
        Assert.That(keep.Blocks[^1].End, Is.EqualTo(3650));
        Assert.That((outcome.Verdict, outcome.Report, outcome.DetectorName), Is.EqualTo((Verdict.Answered, (object?)null, "")));
    }

    [Test]
    public void Run_TruthThatFoundNoRoom_IsNoResult()
    {
        SensorStream stream = Runs.Read(5).CreateStream();
        while (stream.Truth.Add(default))
        {
        }

        Assert.That(
            () => new Runner(stream, stream.Truth, detector: null, scorer: null).Run(),
            Throws.InvalidOperationException.With.Message.Contains("rows of truth found no room"));
    }

    [TestCase(5)]
    [TestCase(17.7)]
    public void Run_Truth_IsThatOfTheStreamAndEndsWithIt(double seconds)
    {
        var keep = new KeepSink();
        Runs.Run(Runs.Read(seconds), detector: null, keep);
        var longer = new KeepSink();
        Runs.Run(Runs.Read(seconds + 10), detector: null, longer);
        long endNs = (long)Math.Round(seconds * 1e9);

        Assert.That(keep.Truth, Has.All.Matches<TruthEvent>(t => t.TimeNs >= 0 && t.TimeNs < endNs));

        // A longer record of the same scenario has the same truth up to there: nothing is lost at the end either.
        Assert.That(keep.Truth.Order(ByPlace), Is.EqualTo(longer.Truth.Where(t => t.TimeNs < endNs).Order(ByPlace)));
        Assert.That(longer.Truth, Has.Count.GreaterThan(keep.Truth.Count));
    }

    [Test]
    public void Run_CancelledBeforehand_StopsBeforeTheFirstBlock()
    {
        var keep = new KeepSink();
        SensorStream stream = Runs.Read(30).CreateStream();

        Assert.That(
            () => new Runner(stream, stream.Truth, null, null, keep).Run(null, new CancellationToken(canceled: true)),
            Throws.InstanceOf<OperationCanceledException>());
        Assert.That(keep.Blocks, Is.Empty);
    }

    [Test]
    public void Run_CancelledOnTheWay_StopsAtTheNextBlock()
    {
        using var source = new CancellationTokenSource();
        var keep = new KeepSink();
        SensorStream stream = Runs.Read(30).CreateStream();
        var detector = new TestDetector { OnProcess = (block, _) => CancelAt(block, source) };

        Assert.That(
            () => new Runner(stream, stream.Truth, detector, null, keep).Run(null, source.Token),
            Throws.InstanceOf<OperationCanceledException>());
        Assert.That(keep.Blocks, Has.Count.EqualTo(3));
    }

    [Test]
    public void Step_AfterWarmUp_AllocatesNothing()
    {
        Scenario scenario = Runs.Read(200, "[movement]\nactivity = \"walking\"\n[ambient]\nlevel_na = 100\n[optics]\nmovement_artefact_ratio = 1\n");
        SensorStream stream = scenario.CreateStream();
        var detector = new CheapDetector();
        detector.Start(stream.Format);
        var runner = new Runner(stream, stream.Truth, detector, Runs.Scorer(stream), new MarkCounts(stream.Format));
        for (int i = 0; i < 60; i++)
        {
            runner.Step();
        }

        long allocated = Allocations.Least(() =>
        {
            for (int i = 0; i < 100; i++)
            {
                runner.Step();
            }
        });

        Assert.That(allocated, Is.Zero);
        Assert.That(detector.Given, Is.GreaterThan(1000), "the path of marks was not taken");
    }

    // What is ahead is made in long stretches only where nobody can change the sensor's settings any more.
    [TestCase(false)]
    [TestCase(true)]
    public void Step_OpenLoop_KeepsTheSettings(bool isClosed)
    {
        SensorStream stream = Runs.Read(20, "").CreateStream();
        var runner = new Runner(stream, stream.Truth, null, null) { Loop = isClosed ? new ControlLoop(stream) : null };
        runner.Step();
        var change = new SettingsRequest(0, SensorSetting.Gain, 2000, stream.PositionTick);
        if (isClosed)
        {
            Assert.That(stream.Schedule(change));
        }
        else
        {
            Assert.That(() => stream.Schedule(change), Throws.InvalidOperationException);
        }
    }

    private static Comparer<TruthEvent> ByPlace { get; } = Comparer<TruthEvent>.Create((a, b) =>
        (a.TimeNs, a.Channel, a.Kind).CompareTo((b.TimeNs, b.Channel, b.Kind)));

    private static void CancelAt(SampleBlock block, CancellationTokenSource source)
    {
        if (block.EndTick == 1500)
        {
            source.Cancel();
        }
    }

    // Eight R peaks and readings a second, at no cost.
    private sealed class CheapDetector : IDetector
    {
        private long _second;

        public long Given { get; private set; }

        public string Name => "cheap";

        public void Start(StreamFormat format) => _second = 0;

        public void Process(SampleBlock block, DetectorOutput output)
        {
            for (int i = 0; i < 8; i++)
            {
                long sample = (_second * 250) + (i * 30);
                output.Marks.Add(new Mark { Channel = 0, Kind = MarkKind.RPeak, Sample = sample, EmittedTick = block.EndTick });
                output.Marks.Add(new Mark
                {
                    Channel = 0, Kind = MarkKind.HeartRateBpm, Sample = sample, HasValue = true, ValueMilli = 65000, EmittedTick = block.EndTick,
                });
                Given += 2;
            }

            _second++;
        }

        public void Flush(DetectorOutput output)
        {
            // Nothing is held back.
        }

        public void Dispose()
        {
            // Nothing is held.
        }
    }
}
