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
        Assert.That(expected.Sensitivity, Is.LessThan(1), "noise so strong that the figure says something");
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
