// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.CLibraries;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Tests.Shared;

namespace SensorSim.Studies.Tests.Running;

/// <summary>C libraries in runs and studies: verdicts, the closed loop, processes that are used again.</summary>
[TestFixture]
public sealed class OwnDetectorTests
{
    // A day of walking about says nothing new here.
    private const double LongestS = 3600;

    private string _folder = "";

    [OneTimeSetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("own-").FullName;

    [OneTimeTearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [TestCase("GOOD", Verdict.Answered, "")]
    [TestCase("SEGFAULT", Verdict.Crashed, "The detector's process was ended by SIGSEGV (access to memory that is not its own), in the block that ends at 3.0 s.")]
    [TestCase("ABORT", Verdict.Crashed, "The detector's process was ended by SIGABRT (abort or a failed assertion), in the block that ends at 3.0 s.")]
    [TestCase("ENDLESS", Verdict.Hung, "The detector did not return within 1.5 s and was ended, in the block that ends at 3.0 s.")]
    [TestCase("HANGS_ON_OPEN", Verdict.Hung, "The detector did not return within 1.5 s and was ended, at its start.")]
    [TestCase("BABBLING", Verdict.Babbling, "The detector gave more than 4096 marks in a second; the rest was dropped.")]
    [TestCase("FUTURE", Verdict.Lying, "The detector gave a r_peak at sample 1000500 of ecg when it had been handed 750 samples, up to 3.0 s.")]
    [TestCase("EARLY", Verdict.Lying, "The detector gave a r_peak in the block from 2.0 to 3.0 s and claims to have given it at 1.998 s.")]
    [TestCase("TOO_MANY", Verdict.Crashed, "The detector reported 4104 marks where 4097 fit, in the block that ends at 3.0 s.")]
    [TestCase("BEYOND", Verdict.Crashed, "The detector wrote beyond the end of the buffer for its answers, in the block that ends at 3.0 s.")]
    [TestCase("SILENT", Verdict.Silent, "The detector gave no mark at all.")]
    public void Run_BadLibrary_GetsItsVerdict(string behaviour, Verdict verdict, string reason)
    {
        using var factory = new CLibraryFactory(CCompiler.BadLibrary(_folder, behaviour), hangS: verdict == Verdict.Hung ? 1.5 : 20);
        using IDetector detector = factory.Create(new Dictionary<string, double>());
        for (int i = 0; i < 2; i++)
        {
            RunOutcome outcome = Runs.Run(Runs.Read(12), detector);
            Assert.That((outcome.Verdict, outcome.VerdictReason), Is.EqualTo((verdict, reason)), "the second time as the first");
        }
    }

    // What a detector asks for at the end of a quantum acts 100 ms later; the first request comes with the third quantum.
    [TestCase(true)]
    [TestCase(false)]
    public void Run_ClosedLoop_LibraryChangesTheSensor(bool isInProcess)
    {
        using var factory = new CLibraryFactory(CCompiler.BadLibrary(_folder, "ASKS"), isInProcess);
        using IDetector detector = factory.Create(new Dictionary<string, double> { ["detector.current_ma"] = 12.5 });
        SensorStream stream = Runs.Read(3).CreateStream();
        var sink = new SettingsSink();
        var runner = new Runner(stream, stream.Truth, detector, scorer: null, sink) { Loop = new ControlLoop(stream) };
        runner.Run();

        Assert.That(runner.Loop.RequestCount, Is.EqualTo(28));
        Assert.That(sink.First, Is.EqualTo(new SettingChange(Signals.Streams.ChannelName.Red, SensorSetting.LedCurrentMa, 12_500, 400_000_000)));
    }

    [Test]
    public void Make_StudyWithBadAndGoodDetectors_GoesOnAndUsesProcessesAgain()
    {
        DetectorChoice[] choices =
        [
            Choice("good", CCompiler.Library(CCompiler.Example, Path.Combine(_folder, "threshold.so"))),
            Choice("crashing", CCompiler.BadLibrary(_folder, "SEGFAULT")),
            new DetectorChoice { Label = "ours" },
        ];
        StudyPlan plan = Plan(choices);
        IDetectorFactory[] factories = [.. choices.Select(DetectorFactories.Open)];
        var rows = new List<RunRow>();
        using (var maker = new RunMaker(plan, factories))
        {
            for (long run = 0; run < plan.RunCount; run++)
            {
                rows.Add(maker.Make(run));
            }
        }

        Verdict[] Of(int detector) => [.. rows.Where(r => plan.KeyOf(r.Run).Detector == detector).Select(r => r.Verdict)];
        Assert.That(Of(0), Is.EqualTo(Enumerable.Repeat(Verdict.Answered, 6)));
        Assert.That(Of(1), Is.EqualTo(Enumerable.Repeat(Verdict.Crashed, 6)));
        Assert.That(Of(2), Is.EqualTo(Enumerable.Repeat(Verdict.Answered, 6)));
        Assert.That(((CLibraryFactory)factories[0]).ChildCount, Is.EqualTo(1), "one process for six runs and two sets of constants");
        Assert.That(((CLibraryFactory)factories[1]).ChildCount, Is.EqualTo(6), "each crash takes one");

        // The second point has the other refractory time, and the same runs again give the same rows.
        using var again = new RunMaker(plan, factories);
        Assert.That(again.Make(0).Events[0].Counts, Is.EqualTo(rows[0].Events[0].Counts));
        foreach (IDetectorFactory factory in factories)
        {
            factory.Dispose();
        }
    }

    [Test]
    public void Run_OurOwnLibraryOverTheScenarios_NeverLies()
    {
        string folder = Path.Combine(CCompiler.Root, "waveforms", "scenarios");
        string[] files = [.. Directory.EnumerateFiles(folder, "*.toml", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
        int judged = 0;
        foreach (string file in files)
        {
            if (!File.ReadLines(file).Any(l => l.StartsWith("[scenario]", StringComparison.Ordinal)))
            {
                continue;
            }

            Scenario scenario = ScenarioReader.ReadFile(file);
            if (scenario.DurationS > LongestS)
            {
                continue;
            }

            using var detector = new LibraryDetector();
            RunOutcome outcome = Runs.Run(scenario, detector);
            Assert.That((outcome.Verdict, outcome.VerdictReason), Is.EqualTo((Verdict.Answered, "")), file);
            judged++;
        }

        Assert.That(judged, Is.GreaterThan(10));
    }

    private static DetectorChoice Choice(string label, string path) =>
        new() { Label = label, Adapter = DetectorAdapter.CLibrary, Path = path };

    private static StudyPlan Plan(DetectorChoice[] choices) => new()
    {
        Title = "own detectors",
        File = "own.toml",
        Text = "",
        Scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 15\n", "x.toml"),
        Factors = [new Factor(AllKeys.Find("ecg_noise.muscle_snr_db")!, [20.0, 10.0])],
        Points = [new StudyPoint(0, [20.0]), new StudyPoint(1, [10.0])],
        Seeds = [7, 8, 9],
        Detectors = choices,
        Requirements = [],
    };

    private sealed class SettingsSink : IRunSink
    {
        public SettingChange? First { get; private set; }

        public void OnBlock(Signals.Streams.SampleBlock block)
        {
        }

        public void OnTruth(in Signals.Marks.TruthEvent truth)
        {
        }

        public void OnMark(in Signals.Marks.Mark mark)
        {
        }

        public void OnSetting(in SettingChange change) => First ??= change;
    }
}
