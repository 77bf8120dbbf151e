// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;
using SensorSim.Tests.Shared;

namespace SensorSim.Studies.Tests.Plans;

[TestFixture]
public sealed class RunMakerTests
{
    private const string Noisy = """
        [scenario]
        duration_s = 40
        seed = 3

        [ecg_noise]
        muscle_snr_db = 12
        """;

    [Test]
    public void Make_OnePoint_GivesTheFiguresOfARun()
    {
        StudyPlan plan = Plan(["ecg_noise.muscle_snr_db"], [[6.0], [-6.0]]);
        using var factory = new LibraryFactory();
        using var maker = new RunMaker(plan, [factory]);
        RunRow row = maker.Make(plan.NumberOf(new RunKey(1, 1, 0, 0)));

        Scenario scenario = ScenarioReader.ReadText(Noisy.Replace("= 12", "= -6", StringComparison.Ordinal), "x.toml").WithSeed(8);
        SensorStream stream = scenario.CreateStream();
        using var detector = new LibraryDetector();
        RunOutcome outcome = new Runner(stream, stream.Truth, detector, new Scorer(stream, ScoredRows.Options(stream.Format))).Run();
        var expected = outcome.Report!.Find(ChannelName.Ecg, MarkKind.RPeak)!;

        Assert.That(row.Find(ChannelName.Ecg, MarkKind.RPeak)!.Counts, Is.EqualTo(expected.Counts));
        var sensitivity = new RequirementOnRow(RequirementKeys.All.First(r => r.Key.Name == "requirements.r_peak_sensitivity_min"), 0.9, ChannelName.Ecg);
        Assert.That(sensitivity.FigureOf(row), Is.EqualTo(expected.Sensitivity));
        Assert.That(expected.Sensitivity, Is.LessThan(800_000), "noise so strong that the figure says something");
    }

    // Streams of a scenario share what follows from its values, whichever seed came first; runs of any order are those of a scenario read anew.
    [TestCase("rest-finger.toml")]
    [TestCase("walking-wrist.toml")]
    [TestCase("all-on.toml")]
    public void Make_RunsInAnyOrder_AreThoseOfScenariosReadAnew(string file)
    {
        string path = Path.Combine(CCompiler.Root, "waveforms", "scenarios", file);
        KeyValue[] shorter = [new KeyValue(ScenarioKeys.DurationS, 20)];
        StudyPlan plan = Plan(["ecg_noise.muscle_snr_db"], [[6.0], [-6.0]]) with { Scenario = ScenarioReader.ReadFile(path).With(shorter), Seeds = [5003, 5001, 5002] };
        using var factory = new LibraryFactory();
        using var maker = new RunMaker(plan, [factory]);
        foreach (long run in new long[] { 4, 0, 5, 2, 3, 1, 4 })
        {
            RunKey key = plan.KeyOf(run);
            KeyValue[] own = [.. shorter, new KeyValue((NumberKey)AllKeys.Find("ecg_noise.muscle_snr_db")!, (double)plan.Points[key.Point].Values[0])];
            SensorStream stream = ScenarioReader.ReadFile(path).With(own).WithSeed(plan.Seeds[key.Seed]).CreateStream();
            using var detector = new LibraryDetector();
            RunOutcome outcome = new Runner(stream, stream.Truth, detector, new Scorer(stream, ScoredRows.Options(stream.Format))).Run();
            Assert.That(RowBytes.Of(maker.Make(run)), Is.EqualTo(RowBytes.Of(RunRow.Of(run, outcome))), $"run {run}");
        }
    }

    [Test]
    public void Make_RunsOfAMinute_AllocateLittle()
    {
        string path = Path.Combine(CCompiler.Root, "waveforms", "studies", "muscle-noise.toml");
        StudyPlan plan = PlanReader.ReadFile(path);
        using var factory = new LibraryFactory();
        using var maker = new RunMaker(plan, [factory]);
        long run = 0;
        Assert.That(Allocations.Least(() => maker.Make(run++)), Is.LessThan(800_000));
        Assert.That(maker.Make(run).Verdict, Is.EqualTo(Verdict.Answered));
    }

    [Test]
    public void NumberOf_EveryRun_IsItsKeysNumber()
    {
        StudyPlan plan = Plan(["ecg_noise.muscle_snr_db"], [[6.0], [-6.0], [0.0]]) with { SubjectSeeds = [4, 5] };
        for (long run = 0; run < plan.RunCount; run++)
        {
            Assert.That(plan.NumberOf(plan.KeyOf(run)), Is.EqualTo(run));
        }

        Assert.That(plan.RunCount, Is.EqualTo(3 * 2 * 2));
    }

    private static StudyPlan Plan(string[] keys, object[][] points) => new()
    {
        Title = "noise",
        File = "noise.toml",
        Text = "",
        Scenario = ScenarioReader.ReadText(Noisy, "x.toml"),
        Factors = [.. keys.Select((k, i) => new Factor(AllKeys.Find(k)!, [.. points.Select(p => p[i]).Distinct()]))],
        Points = [.. points.Select((p, i) => new StudyPoint(i, p))],
        Seeds = [7, 8],
        Detectors = [new DetectorChoice { Label = "ours" }],
        Requirements = [],
    };
}
