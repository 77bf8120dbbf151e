// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>From the file to a plan that can be run.</summary>
[TestFixture]
public sealed class PlanReaderTests
{
    private StudyFolder _folder = null!;

    [SetUp]
    public void SetUp() => _folder = new StudyFolder();

    [TearDown]
    public void TearDown() => _folder.Dispose();

    [Test]
    public void ReadText_Least_IsTheScenarioWithOurLibrary()
    {
        StudyPlan plan = _folder.Read();

        Assert.That((plan.Points.Count, plan.Seeds.Count, plan.SubjectCount, plan.RunCount), Is.EqualTo((1, 20, 1, 20L)));
        Assert.That(plan.Points[0].Values, Is.Empty);
        Assert.That((plan.Detectors[0].Label, plan.Detectors[0].Adapter, plan.Detectors[0].HangS), Is.EqualTo(("ours", DetectorAdapter.Library, 10.0)));
        Assert.That(plan.Requirements.Select(r => (r.Definition.Key.Key, r.Limit)), Is.EqualTo(new[] { ("r_peak_sensitivity_min", 0.9) }), "the scenario's");
        Assert.That((plan.Title, plan.Scenario.DurationS, plan.Tuning), Is.EqualTo(("a", 40.0, (TuningSettings?)null)));
        Assert.That(plan.FailurePoint, Is.EqualTo(new FailurePointSettings()));
    }

    [Test]
    public void ReadText_Everything_ReachesThePlan()
    {
        _folder.Write("c.toml", "[calibration]\ntime_of_day_h = 7\n[oxygen]\nratio = [0.4, 1.6]\nsaturation_percent = [100, 70]\n");
        _folder.Write("d.dll", "");
        StudyPlan plan = _folder.Read("""
            title = "everything"
            duration_s = 20
            seeds = [4, 9]
            subject_seeds = [3]

            [[vary]]
            key = "heart.rate_bpm"
            from = 60
            to = 90
            count = 4

            [[vary]]
            key = "detector.a"
            values = [1, 10]
            spacing = "ratio"

            [[detector]]
            label = "ours"
            calibration = "c.toml"
            closed_loop = true
            control = "light_level"
            latency_ms = 200

            [[detector]]
            label = "other"
            adapter = "assembly"
            file = "d.dll"
            class = "D"
            constants = { b = 2 }

            [requirements]
            heart_rate_rms_bpm_max = 2

            [failure_point]
            of = "runs"
            pass_fraction = 0.8
            curve = "probit"
            resamples = 300

            [tuning]
            seeds = [70, 71]
            """);

        Assert.That((plan.Title, plan.Scenario.DurationS, plan.RunCount), Is.EqualTo(("everything", 20.0, 8L * 2 * 1 * 2)));
        Assert.That(plan.Factors.Select(f => (f.Key.Name, f.IsOfDetector, f.IsInRatios)), Is.EqualTo(new[] { ("heart.rate_bpm", false, false), ("detector.a", true, true) }));
        Assert.That((plan.Seeds, plan.SubjectSeeds, plan.Tuning!.Seeds), Is.EqualTo((new ulong[] { 4, 9 }, new ulong[] { 3 }, new ulong[] { 70, 71 })));
        DetectorChoice ours = plan.Detectors[0];
        Assert.That((ours.Control, ours.IsLoopClosed, ours.LatencyMs, ours.Calibration!.TimeOfDayH), Is.EqualTo(("light_level", true, 200, 7.0)));
        DetectorChoice other = plan.Detectors[1];
        Assert.That((other.Adapter, other.Path, other.ClassName), Is.EqualTo((DetectorAdapter.Assembly, _folder.At("d.dll"), "D")));
        Assert.That(other.Constants["detector.b"], Is.EqualTo(2));
        Assert.That(plan.Requirements.Select(r => r.Definition.Key.Key), Is.EqualTo(new[] { "heart_rate_rms_bpm_max" }), "in place of the scenario's");
        Assert.That(plan.FailurePoint, Is.EqualTo(new FailurePointSettings { PassFraction = 0.8, Shape = CurveShape.Probit, Resamples = 300 }));
        Assert.That(RunMaker.ConstantsAt(plan, 1, 1), Is.EqualTo(new Dictionary<string, double> { ["detector.a"] = 10, ["detector.b"] = 2 }));
    }

    [Test]
    public void ReadText_Points_AreMadeWithTheirValues()
    {
        StudyPlan plan = _folder.Read("[[vary]]\nkey = \"heart.rate_bpm\"\nvalues = [60, 80]\n");

        Scenario made = RunMaker.ScenarioAt(plan, 1, 0);
        Assert.That(made.Values[(Signals.Keys.NumberKey)AllKeys.Find("heart.rate_bpm")!], Is.EqualTo(80));
    }

    [Test]
    public void ReadText_CLibrary_ReachesThePlan()
    {
        _folder.Write("d.so", "");
        DetectorChoice choice = _folder.Read("[[detector]]\nadapter = \"c_library\"\nfile = \"d.so\"\nhang_s = 3\n").Detectors[0];

        Assert.That((choice.Adapter, choice.Path, choice.HangS, choice.IsInProcess), Is.EqualTo((DetectorAdapter.CLibrary, _folder.At("d.so"), 3.0, false)));
    }

    [TestCase("[[detector]]\nclosed_loop = true\ncontrol = \"light\"\n", "a.toml, line 5, column 11: detector.control = \"light\" must be one of \"light_level\"")]
    [TestCase("[[detector]]\nadapter = \"assembly\"\nfile = \"no.dll\"\n", "a.toml, line 5, column 8: detector.file = \"no.dll\" is no file; give the path of a detector, from the study's folder on")]
    [TestCase("[[detector]]\ncalibration = \"no.toml\"\n", "a.toml, line 4, column 15: detector.calibration = \"no.toml\" is no file")]
    [TestCase("duration_s = 0.5\n", "a.toml, line 3, column 14: study.duration_s = 0.5 is outside of")]
    [TestCase("[[vary]]\nkey = \"heart.rate_bpm\"\nfrom = 60\nto = 61\ncount = 400\n[[vary]]\nkey = \"heart.slow_variability_ms\"\nfrom = 0\nto = 1\ncount = 400\n", "a.toml, line 4, column 7: the grid has 160000 points; 100000 at most, so vary fewer keys, or choose arrangement = \"latin_hypercube\"")]
    public void ReadText_Mistake_IsTold(string more, string expected) => Assert.That(_folder.Mistakes(more), Does.StartWith(expected));

    [Test]
    public void ReadText_NoScenario_IsTold()
    {
        var e = Assert.Throws<ScenarioException>(() => PlanReader.ReadText("[study]\nscenario = \"no.toml\"\n", "a.toml"));
        Assert.That(e!.Message, Is.EqualTo("a.toml, line 2, column 12: study.scenario = \"no.toml\" is no file; give the path of a scenario (TOML), from the study's folder on"));
    }

    [Test]
    public void ReadText_MistakeInTheScenario_IsToldThere()
    {
        _folder.Write("s.toml", "[heart]\nrate = 60\n");
        Assert.That(_folder.Mistakes(""), Is.EqualTo("s.toml, line 2, column 1: heart.rate is no key; the nearest is heart.rate_bpm"));
    }

    [TestCase("[failure_point]\n", "a.toml, line 3, column 2: [failure_point] needs a requirement that fails there; add [requirements] with, for example, r_peak_sensitivity_min = 0.99")]
    [TestCase("[[vary]]\nkey = \"detector.a\"\nvalues = [1]\n[tuning]\n", "a.toml, line 6, column 2: [tuning] needs a requirement, whose figure decides what is best")]
    public void ReadText_NoRequirementAtAll_IsTold(string more, string expected)
    {
        _folder.Write("s.toml", "[heart]\nrate_bpm = 60\n");
        Assert.That(_folder.Mistakes(more), Does.StartWith(expected));
    }

    [Test]
    public void ReadText_PointsThatContradict_AreToldWithTheirValues()
    {
        // The scenario's change lies after the end of the shorter points.
        _folder.Write("s.toml", "[scenario]\nduration_s = 60\n[[change]]\nat_s = 30\nkey = \"heart.rate_bpm\"\nstep_to = 90\n");
        string told = _folder.Mistakes("[[vary]]\nkey = \"heart.slow_variability_ms\"\nvalues = [0, 5]\n[[vary]]\nkey = \"scenario.duration_s\"\nvalues = [60, 20]\n");

        string[] lines = told.Split('\n');
        Assert.That(lines, Has.Length.EqualTo(2));
        Assert.That(lines[0], Does.StartWith("a.toml, line 7, column 7: point 1 (heart.slow_variability_ms = 0, scenario.duration_s = 20) cannot be made: s.toml, line 4, column 8: at_s = 30"));
        Assert.That(lines[1], Does.Contain(": point 3 ("));
    }

    [Test]
    public void ReadText_ManyPointsThatContradict_AreCounted()
    {
        _folder.Write("s.toml", "[scenario]\nduration_s = 60\n[[change]]\nat_s = 30\nkey = \"heart.rate_bpm\"\nstep_to = 90\n");
        string[] lines = _folder.Mistakes("[[vary]]\nkey = \"scenario.duration_s\"\nfrom = 10\nto = 29\ncount = 20\n").Split('\n');

        Assert.That(lines, Has.Length.EqualTo(6));
        Assert.That(lines, Has.Exactly(1).EqualTo("a.toml, line 4, column 7: 15 more points cannot be made for such reasons; correct these first"));
    }

    [Test]
    public void ReadText_DurationAgainstTheScenario_IsToldInTheStudy()
    {
        _folder.Write("s.toml", "[scenario]\nduration_s = 60\n[[change]]\nat_s = 30\nkey = \"heart.rate_bpm\"\nstep_to = 90\n");
        Assert.That(_folder.Mistakes("duration_s = 20\n"), Does.StartWith("a.toml, line 3, column 14: study.duration_s = 20 does not go with the scenario: s.toml, line 4, column 8: at_s = 30"));
    }

    [Test]
    public void ReadText_MoreThan200Points_ChecksTheCorners()
    {
        _folder.Write("s.toml", "[scenario]\nduration_s = 60\n[[change]]\nat_s = 30\nkey = \"heart.rate_bpm\"\nstep_to = 90\n");
        string grid = "[[vary]]\nkey = \"heart.slow_variability_ms\"\nfrom = 0\nto = 20\ncount = 21\n[[vary]]\nkey = \"scenario.duration_s\"\n";
        string told = _folder.Mistakes(grid + "from = 60\nto = 30\ncount = 16\n");

        Assert.That(told, Does.Contain("point 15 (").And.Contain("point 335 (").And.Not.Contain("more points"), "30 s are too short; only corners are made");
        Assert.That(_folder.Read(grid + "from = 60\nto = 31\ncount = 16\n").Points, Has.Count.EqualTo(336));
    }

    [Test]
    public void ReadText_Persons_AreAllDrawn()
    {
        StudyPlan plan = _folder.Read("subject_count = 250\n[[vary]]\nkey = \"heart.slow_variability_ms\"\nvalues = [1, 2]\n");

        Assert.That(plan.RunCount, Is.EqualTo(2L * 20 * 250));
        Assert.That(RunMaker.ScenarioAt(plan, 1, 249).Subject!.Seed, Is.EqualTo(250));
    }
}
