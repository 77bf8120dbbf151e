// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.WorstCases;

namespace SensorSim.Studies.Tests.WorstCases;

[TestFixture]
public sealed class WorstCaseFinderTests
{
    private const string Noisy = """
        [scenario]
        duration_s = 40
        seed = 3
        """;

    private const double WindowS = 0.15;

    private static StudyPlan Plan(params (string Key, double Limit)[] requirements)
    {
        KeyDefinition key = AllKeys.Find("ecg_noise.muscle_snr_db")!;
        return new StudyPlan
        {
            Title = "noise",
            File = "noise.toml",
            Text = "",
            Scenario = ScenarioReader.ReadText(Noisy, "x.toml"),
            Factors = [new Factor(key, [20.0, -6.0])],
            Points = [new StudyPoint(0, [20.0]), new StudyPoint(1, [-6.0])],
            Seeds = [7, 8, 9],
            Detectors = [new DetectorChoice { Label = "ours" }],
            Requirements = [.. requirements.Select(r => (RequirementKeys.All.First(d => d.Key.Key == r.Key), r.Limit))],
        };
    }

    private static StudyResults Run(StudyPlan plan, IDetectorFactory factory)
    {
        using var maker = new RunMaker(plan, [factory]);
        return new StudyResults(plan, [.. Enumerable.Range(0, (int)plan.RunCount).Select(run => maker.Make(run))]);
    }

    [Test]
    public void Find_Sensitivity_ShowsTheFirstMissedBeatOfTheWorstRun()
    {
        using var factory = new LibraryFactory();
        StudyResults results = Run(Plan(("r_peak_sensitivity_min", 0.99)), factory);
        IReadOnlyList<WorstCase> cases = WorstCaseFinder.Find(results, [factory], 2);
        Assert.That(cases, Has.Count.EqualTo(2));
        RequirementOnRow requirement = results.Requirements.Single();
        double?[] figures = [.. results.Rows.Select(requirement.FigureOf).Order()];
        Assert.That(cases.Select(c => c.Figure), Is.EqualTo(figures[..2]));
        foreach (WorstCase worst in cases)
        {
            Assert.That(worst.Key.Point, Is.EqualTo(1), "the quiet point meets the requirement");
            FirstSeconds capture = worst.Capture;
            Assert.That(worst.MomentS, Is.EqualTo((capture.BeginSeconds + capture.EndSeconds) / 2).Within(1e-9));
            Assert.That(capture.EndSeconds - capture.BeginSeconds, Is.EqualTo(10).Within(1e-9));

            // Straight from truth and marks, without the scorer: a true beat stands there, and no detection within 150 ms.
            int ecg = capture.Format.IndexOf(ChannelName.Ecg);
            double[] beats = [.. capture.Truth.Where(t => t.Kind == MarkKind.RPeak && t.Channel == ChannelName.Ecg).Select(t => capture.DeviceSeconds(ecg, t.TimeNs))];
            double[] marks = [.. capture.Marks.Where(m => m.Kind == MarkKind.RPeak && m.Channel == ecg).Select(m => capture.Format.DeviceTimeNs(m.Channel, m.Sample, m.Fraction256) * 1e-9)];
            Assert.That(beats.Min(b => Math.Abs(b - worst.MomentS)), Is.LessThan(1e-6));
            Assert.That(marks.Where(m => Math.Abs(m - worst.MomentS) <= WindowS && beats.All(b => Math.Abs(m - b) >= Math.Abs(m - worst.MomentS))), Is.Empty);
            Assert.That(worst.Unpaired.Select(e => e.TruthNs), Has.Some.EqualTo((long)Math.Round((worst.MomentS * 1e9) - capture.Format.Channels[ecg].DeclaredDelayNs)).Within(2));
            Assert.That(capture.Values(ecg).Count(double.IsFinite), Is.GreaterThan(2000), "ten seconds at 250 Hz");
        }
    }

    [Test]
    public void Find_Twice_GivesTheSame()
    {
        using var factory = new LibraryFactory();
        StudyResults results = Run(Plan(("r_peak_sensitivity_min", 0.99), ("r_peak_positive_predictivity_min", 0.99), ("r_peak_timing_sd_ms_max", 3)), factory);
        IReadOnlyList<WorstCase> first = WorstCaseFinder.Find(results, [factory], 3);
        IReadOnlyList<WorstCase> second = WorstCaseFinder.Find(results, [factory], 3);
        Assert.That(first.Select(c => c.Run), Is.Unique, "each run once");
        Assert.That(first.Select(c => c.Requirement), Is.EqualTo(results.Requirements), "the requirements take turns");
        Assert.That(second.Select(c => (c.Run, c.MomentS, c.What)), Is.EqualTo(first.Select(c => (c.Run, c.MomentS, c.What))));
        Assert.That(second.SelectMany(c => c.Capture.Values(0)), Is.EqualTo(first.SelectMany(c => c.Capture.Values(0))));
        Assert.That(first[1].What, Is.EqualTo("First detection where there was no event."));
        Assert.That(first[2].What, Does.StartWith("Largest timing error of the run: "));
    }

    [Test]
    public void Find_EverythingMet_GivesNone()
    {
        using var factory = new LibraryFactory();
        StudyResults results = Run(Plan(("r_peak_sensitivity_min", 0.01)), factory);
        Assert.That(WorstCaseFinder.Find(results, [factory], 5), Is.Empty);
        Assert.That(WorstCaseFinder.Find(Run(Plan(("r_peak_sensitivity_min", 0.99)), factory), [factory], 0), Is.Empty);
    }

    [Test]
    public void Find_CrashedDetector_ComesFirstWithItsReason()
    {
        using var factory = new CrashingFactory();
        StudyResults results = Run(Plan(("r_peak_sensitivity_min", 0.99)), factory);
        WorstCase worst = WorstCaseFinder.Find(results, [factory], 1).Single();
        Assert.That(worst.Run, Is.Zero);
        Assert.That(worst.Verdict, Is.EqualTo(Verdict.Crashed));
        Assert.That(worst.VerdictReason, Does.Contain("out of luck"));
        Assert.That(worst.What, Is.EqualTo("The detector failed in the block that ends here, and gave nothing from then on."));
        Assert.That(worst.MomentS, Is.EqualTo(1).Within(0.1), "the first block is a second long");
    }

    private sealed class CrashingFactory : IDetectorFactory
    {
        public string Identity => "crashing 1";

        public IReadOnlyList<NumberKey> Constants => [];

        public IDetector Create(IReadOnlyDictionary<string, double> constants) => new CrashingDetector();

        public void Dispose()
        {
        }
    }

    private sealed class CrashingDetector : IDetector
    {
        public string Name => "crashing 1";

        public void Start(StreamFormat format)
        {
        }

        public void Process(SampleBlock block, DetectorOutput output) => throw new InvalidOperationException("out of luck");

        public void Flush(DetectorOutput output)
        {
        }

        public void Dispose()
        {
        }
    }
}
