// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Detectors;

namespace SensorSim.Studies.Tests.Running;

/// <summary>Detectors that behave badly get a verdict; the run goes on to its end.</summary>
[TestFixture]
public sealed class RunnerVerdictTests
{
    private static readonly Mark s_sound = new() { Channel = 0, Kind = MarkKind.RPeak, Sample = 100 };

    private static IEnumerable<TestCaseData> Lies()
    {
        yield return Lie("channel above", s_sound with { Channel = 7 });
        yield return Lie("channel below", s_sound with { Channel = -1 });
        yield return Lie("kind above", s_sound with { Kind = (MarkKind)MarkKinds.All.Count });
        yield return Lie("kind below", s_sound with { Kind = (MarkKind)(-1) });
        yield return Lie("sample far ahead", s_sound with { Sample = 1L << 50 });
        yield return Lie("sample at the end of numbers", s_sound with { Sample = long.MaxValue });
        yield return Lie("sample at the start of numbers", s_sound with { Sample = long.MinValue });
        yield return Lie("paired channel", s_sound with { PairedChannel = 7 });
        yield return Lie("paired channel below none", s_sound with { PairedChannel = -2 });
        yield return Lie("paired sample", s_sound with { PairedChannel = 0, PairedSample = 1L << 60 });
        yield return Lie("window", s_sound with { WindowSamples = long.MaxValue });
        yield return Lie("emission", s_sound with { EmittedTick = long.MaxValue });
        yield return Lie("emission before all", s_sound with { EmittedTick = long.MinValue });

        static TestCaseData Lie(string name, Mark mark) => new TestCaseData(mark).SetArgDisplayNames(name);
    }

    [TestCaseSource(nameof(Lies))]
    public void Run_MarkThatCannotBe_IsCrashedAndReachesNobody(Mark mark)
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        using var folder = new OutputFolder(path);
        SensorStream stream = Runs.Read(5).CreateStream();
        using var files = new FileSink(folder, stream.Format, withTruth: true, withDetections: true, withSamples: false);
        var keep = new KeepSink();
        IRunSink[] sinks = [keep, files, new FirstSeconds(stream.Format, 0, 5), new MarkCounts(stream.Format)];
        var detector = new TestDetector { OnProcess = (_, output) => output.Marks.Add(mark) };

        RunOutcome outcome = new Runner(stream, stream.Truth, detector, Runs.Scorer(stream), sinks).Run();

        AssertVerdict(outcome, Verdict.Crashed, "which the stream does not have");
        Assert.That(keep.Marks, Is.Empty);
        Assert.That(outcome.MarkCount, Is.Zero);
        Assert.That(keep.Blocks, Has.Count.EqualTo(5));
    }

    private static IEnumerable<TestCaseData> BeforeTheStream()
    {
        yield return Case("sample", s_sound with { Sample = -285 }, "The detector gave a r_peak in ecg at sample -285; the first sample of a stream is 0.");
        yield return Case(
            "pair",
            s_sound with { PairedChannel = 0, PairedSample = -1 },
            "The detector gave a r_peak in ecg that belongs to sample -1 of ecg; the first sample of a stream is 0.");
        yield return Case(
            "window below nothing",
            s_sound with { WindowSamples = -1 },
            "The detector gave a r_peak in ecg with a window of -1 samples; a window reaches back from the mark and is 0 or more.");
        yield return Case(
            "window from before",
            s_sound with { WindowSamples = 102 },
            "The detector gave a r_peak in ecg at sample 100 with a window of 102 samples, which begins before the stream.");

        static TestCaseData Case(string name, Mark mark, string sentence) => new TestCaseData(mark, sentence).SetArgDisplayNames(name);
    }

    [TestCaseSource(nameof(BeforeTheStream))]
    public void Run_MarkBeforeTheStream_IsCrashedAndReachesNobody(Mark mark, string sentence)
    {
        var keep = new KeepSink();
        var detector = new TestDetector { OnProcess = (block, output) => output.Marks.Add(mark with { EmittedTick = block.EndTick }) };

        RunOutcome outcome = Runs.Run(Runs.Read(12), detector, keep);

        Assert.That((outcome.Verdict, outcome.VerdictReason), Is.EqualTo((Verdict.Crashed, sentence)));
        Assert.That(keep.Marks, Is.Empty);
    }

    // Samples 0 to 100 are 101.
    [TestCase(0)]
    [TestCase(100)]
    [TestCase(101)]
    public void Run_WindowThatBeginsWithTheStream_IsTaken(long windowSamples)
    {
        Mark mark = s_sound with { WindowSamples = windowSamples };
        var detector = new TestDetector { OnProcess = (block, output) => output.Marks.Add(mark with { EmittedTick = block.EndTick }) };

        Assert.That(Runs.Run(Runs.Read(12), detector, new KeepSink()).Verdict, Is.EqualTo(Verdict.Answered));
    }

    [Test]
    public void Run_ControlCharactersInAnException_BecomeSpaces()
    {
        var detector = new TestDetector { OnFlush = _ => throw new InvalidOperationException("red\u001b[31m\r\nand\a more") };

        RunOutcome outcome = Runs.Run(Runs.Read(12), detector, new KeepSink());

        Assert.That(outcome.VerdictReason, Is.EqualTo("The detector threw InvalidOperationException at the end of the stream: red [31m and  more"));
    }

    // 250 Hz on a clock of 500 ticks a second: the first second ends at tick 500, before sample 250.
    [TestCase(249, 500, "")]
    [TestCase(249, 0, "")]
    [TestCase(249, 501, "", Description = "end of the latest sample")]
    [TestCase(249, 502, "The detector gave a r_peak in the block from 0.0 to 1.0 s and claims to have given it at 1.004 s.")]
    [TestCase(249, -1, "The detector gave a r_peak in the block from 0.0 to 1.0 s and claims to have given it at -0.002 s.")]
    [TestCase(250, 500, "", Description = "where the data end")]
    [TestCase(251, 500, "The detector gave a r_peak at sample 251 of ecg when it had been handed 250 samples, up to 1.0 s.")]
    public void Run_MarkInTheFirstSecond_MustNotKnowMore(long sample, long emittedTick, string reason)
    {
        var keep = new KeepSink();
        bool isFirst = true;
        var detector = new TestDetector
        {
            OnProcess = (_, output) =>
            {
                if (isFirst)
                {
                    output.Marks.Add(s_sound with { Sample = sample, EmittedTick = emittedTick });
                }

                isFirst = false;
            },
        };

        RunOutcome outcome = Runs.Run(Runs.Read(3), detector, keep);

        Assert.That((outcome.Verdict, outcome.VerdictReason), Is.EqualTo((reason.Length == 0 ? Verdict.Answered : Verdict.Lying, reason)));
        Assert.That(keep.Marks, Has.Count.EqualTo(reason.Length == 0 ? 1 : 0));
        Assert.That(keep.Blocks, Has.Count.EqualTo(3), "the run goes on");
    }

    [Test]
    public void Run_PairedWithTheFuture_IsLying() => AssertVerdict(
        Runs.Run(Runs.Read(2), new TestDetector { OnFlush = output => output.Marks.Add(s_sound with { EmittedTick = 1000, PairedChannel = 0, PairedSample = 501 }) }),
        Verdict.Lying,
        "at sample 501 of ecg when it had been handed 500 samples");

    [Test]
    public void Run_AdapterFails_IsToldWithoutTheNameOfTheException()
    {
        AssertVerdict(
            Runs.Run(Runs.Read(3), new TestDetector { OnProcess = (_, _) => throw new DetectorHungException("The detector did not return") }),
            Verdict.Hung,
            "The detector did not return, in the block that ends at 1.0 s.");
        AssertVerdict(
            Runs.Run(Runs.Read(3), new TestDetector { OnStart = _ => throw new DetectorCrashedException("The detector died") }),
            Verdict.Crashed,
            "The detector died, at its start.");
    }

    [Test]
    public void Run_NoMarkAtAll_IsSilent()
    {
        RunOutcome outcome = Runs.Run(Runs.Read(12), new TestDetector());

        AssertVerdict(outcome, Verdict.Silent, "no mark at all");
        Assert.That(outcome.Report!.Scores[0].Sensitivity, Is.Zero);
        Assert.That(outcome.Report.Scores[0].PositivePredictivity, Is.Null);
    }

    [Test]
    public void Run_MoreMarksThanThereIsRoom_IsBabbling()
    {
        int capacity = new DetectorOutput().Marks.Capacity;
        var detector = new TestDetector
        {
            OnProcess = (block, output) =>
            {
                for (int i = 0; i <= capacity; i++)
                {
                    output.Marks.Add(s_sound with { EmittedTick = block.EndTick });
                }
            },
        };

        RunOutcome outcome = Runs.Run(Runs.Read(3), detector);

        AssertVerdict(outcome, Verdict.Babbling, $"more than {capacity} marks");
        Assert.That(outcome.MarkCount, Is.EqualTo(3L * capacity));
    }

    [Test]
    public void Run_ExactlyAsManyMarksAsThereIsRoom_IsAnswered()
    {
        int capacity = new DetectorOutput().Marks.Capacity;
        var detector = new TestDetector
        {
            OnFlush = output =>
            {
                for (int i = 0; i < capacity; i++)
                {
                    output.Marks.Add(s_sound with { EmittedTick = 1000 });
                }
            },
        };

        Assert.That(Runs.Run(Runs.Read(2), detector).Verdict, Is.EqualTo(Verdict.Answered));
    }

    [Test]
    public void Run_RequestsWithoutEnd_DisturbNothing()
    {
        var detector = new TestDetector
        {
            OnProcess = (block, output) =>
            {
                output.Marks.Add(s_sound with { EmittedTick = block.EndTick });
                for (int i = 0; i < 1000; i++)
                {
                    output.Requests.Add(new SettingsRequest(99, SensorSetting.Gain, 1, 0));
                }
            },
        };

        Assert.That(Runs.Run(Runs.Read(2), detector).Verdict, Is.EqualTo(Verdict.Answered));
    }

    [Test]
    public void Run_ThrowsInABlock_IsCrashedAndAskedNoMore()
    {
        int calls = 0;
        int flushes = 0;
        var detector = new TestDetector
        {
            OnProcess = (block, output) =>
            {
                output.Marks.Add(s_sound with { EmittedTick = block.EndTick });
                if (++calls == 3)
                {
                    throw new DivideByZeroException("two\nlines");
                }
            },
            OnFlush = _ => flushes++,
        };
        var keep = new KeepSink();

        RunOutcome outcome = Runs.Run(Runs.Read(10), detector, keep);

        AssertVerdict(outcome, Verdict.Crashed, "threw DivideByZeroException in the block that ends at 3.0 s: two lines");
        Assert.That((calls, flushes, keep.Blocks.Count, keep.Marks.Count), Is.EqualTo((3, 0, 10, 3)));
    }

    [Test]
    public void Run_ThrowsAtTheEnd_IsCrashed() => AssertVerdict(
        Runs.Run(Runs.Read(2), new TestDetector { OnFlush = _ => throw new InvalidOperationException("late") }), Verdict.Crashed, "late");

    [Test]
    public void Run_ThrowsAtTheStart_IsCrashed() => AssertVerdict(
        Runs.Run(Runs.Read(2), new TestDetector { OnStart = _ => throw new InvalidOperationException("early") }), Verdict.Crashed, "early");

    [Test]
    public void Run_CannotWorkOnTheStream_SaysSoByException() => Assert.That(
        () => Runs.Run(Runs.Read(2), new TestDetector { OnStart = _ => throw new NotSupportedException("needs 360 Hz") }),
        Throws.TypeOf<NotSupportedException>().With.Message.EqualTo("needs 360 Hz"));

    private static void AssertVerdict(RunOutcome outcome, Verdict verdict, string reason)
    {
        Assert.That(outcome.Verdict, Is.EqualTo(verdict));
        Assert.That(outcome.VerdictReason, Does.Contain(reason));
        Assert.That(outcome.VerdictReason.Any(char.IsControl), Is.False);
    }
}
