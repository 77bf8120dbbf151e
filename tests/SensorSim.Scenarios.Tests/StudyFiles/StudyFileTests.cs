// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.StudyFiles;

namespace SensorSim.Scenarios.Tests.StudyFiles;

/// <summary>A study file is read as it says.</summary>
[TestFixture]
public sealed class StudyFileTests
{
    internal const string Everything = """
        [study]
        title = "muscle noise at rest"
        scenario = "../scenarios/rest-finger.toml"
        duration_s = 60
        first_seed = 1
        seed_count = 200
        first_subject_seed = 11
        subject_count = 5
        arrangement = "grid"

        [[vary]]
        key = "ecg_noise.muscle_snr_db"
        from = 24
        to = -8
        count = 9
        spacing = "even"

        [[vary]]
        key = "detector.some_constant"
        values = [1, 2, 3.5]

        [[vary]]
        key = "heart.rhythm"
        values = ["sinus", "atrial_fibrillation"]

        [[detector]]
        label = "ours"
        adapter = "library"
        calibration = "finger.toml"
        control = "light_level"
        closed_loop = true
        latency_ms = 300
        constants = { some_constant = 3, other = -1.5 }

        [[detector]]
        label = "a file"
        adapter = "c_library"
        file = "detector.so"
        hang_s = 2.5

        [detector.constants]
        some_constant = 4

        [[detector]]
        label = "a class"
        adapter = "assembly"
        file = "detector.dll"
        class = "Some.Detector"

        [[detector]]
        label = "inside"
        adapter = "c_library"
        file = "detector.so"
        in_process = true

        [requirements]
        r_peak_positive_predictivity_min = 0.98
        r_peak_sensitivity_min = 0.99

        [failure_point]
        of = "runs"
        pass_fraction = 0.9
        curve = "probit"
        resamples = 500
        adaptive = true
        precision = 0.5
        most_runs = 700

        [tuning]
        first_seed = 5001
        seed_count = 50
        """;

    [Test]
    public void ReadText_Everything_IsTaken()
    {
        StudyFile file = StudyFileReader.ReadText(Everything, "a.toml");

        Assert.That((file.Title, file.ScenarioPath, file.DurationS), Is.EqualTo(("muscle noise at rest", "../scenarios/rest-finger.toml", 60.0)));
        Assert.That(file.Seeds, Is.EqualTo(Enumerable.Range(1, 200).Select(i => (ulong)i)));
        Assert.That(file.SubjectSeeds, Is.EqualTo(new ulong[] { 11, 12, 13, 14, 15 }));
        Assert.That(file.TuningSeeds, Is.EqualTo(Enumerable.Range(5001, 50).Select(i => (ulong)i)));
        Assert.That((file.Arrangement, file.PointCount), Is.EqualTo(("grid", 0)));
        Assert.That(file.Requirements.Select(r => (r.Definition.Key.Key, r.Limit)), Is.EqualTo(new[]
        {
            ("r_peak_positive_predictivity_min", 0.98), ("r_peak_sensitivity_min", 0.99),
        }), "in the order of the file");
        Assert.That(file.FailurePoint, Is.EqualTo(new StudyFailurePoint
        {
            PassFraction = 0.9, Curve = "probit", Resamples = 500, IsAdaptive = true, Precision = 0.5, MostRuns = 700,
        }));
    }

    [Test]
    public void ReadText_Everything_TakesWhatIsVaried()
    {
        IReadOnlyList<VariedKey> varied = StudyFileReader.ReadText(Everything, "a.toml").Varied;

        Assert.That(varied.Select(v => v.Key.Name), Is.EqualTo(new[] { "ecg_noise.muscle_snr_db", "detector.some_constant", "heart.rhythm" }));
        Assert.That((varied[0].From, varied[0].To, varied[0].Count, varied[0].IsInRatios, varied[0].IsRange), Is.EqualTo((24.0, -8.0, 9, false, true)));
        Assert.That(varied[1].Values, Is.EqualTo(new object[] { 1.0, 2.0, 3.5 }));
        Assert.That((varied[0].IsOfDetector, varied[1].IsOfDetector), Is.EqualTo((false, true)));
        Assert.That(varied[2].Values, Is.EqualTo(new object[] { "sinus", "atrial_fibrillation" }));
    }

    [Test]
    public void ReadText_Everything_TakesDetectors()
    {
        IReadOnlyList<StudyDetector> detectors = StudyFileReader.ReadText(Everything, "a.toml").Detectors;

        Assert.That(detectors.Select(d => d.Label), Is.EqualTo(new[] { "ours", "a file", "a class", "inside" }));
        Assert.That(
            (detectors[0].Adapter, detectors[0].Calibration, detectors[0].Control, detectors[0].IsLoopClosed, detectors[0].LatencyMs),
            Is.EqualTo(("library", "finger.toml", "light_level", true, 300)));
        Assert.That(detectors[0].Constants, Is.EqualTo(new Dictionary<string, double> { ["detector.some_constant"] = 3, ["detector.other"] = -1.5 }));
        Assert.That(
            (detectors[1].Adapter, detectors[1].File, detectors[1].IsInProcess, detectors[1].HangS),
            Is.EqualTo(("c_library", "detector.so", false, 2.5)));
        Assert.That(detectors[1].Constants, Is.EqualTo(new Dictionary<string, double> { ["detector.some_constant"] = 4 }));
        Assert.That((detectors[2].Adapter, detectors[2].ClassName, detectors[2].HangS), Is.EqualTo(("assembly", "Some.Detector", 10.0)));
        Assert.That(detectors[2].Constants, Is.Empty);
        Assert.That(detectors[3].IsInProcess, Is.True);
    }

    [Test]
    public void ReadText_Places_AreThoseOfTheText()
    {
        StudyFile file = StudyFileReader.ReadText(Everything, "a.toml");
        string[] lines = Everything.Split('\n');

        foreach ((FilePlace place, string at) in new[]
        {
            (file.PlaceOf(StudySectionKeys.Scenario), "\"../scenarios/rest"),
            (file.PlaceOf(VaryKeys.Values, 1), "[1, 2, 3.5]"),
            (file.PlaceOf(VaryKeys.Key, 2), "\"heart.rhythm\""),
            (file.PlaceOf(DetectorKeys.Control), "\"light_level\""),
            (file.PlaceOfConstant("detector.other", 0), "-1.5"),
            (file.PlaceOfConstant("detector.some_constant", 1), "4"),
        })
        {
            Assert.That(lines[place.Line - 1][(place.Column - 1)..], Does.StartWith(at));
        }

        Assert.That(lines[file.PlaceOf(DetectorKeys.Control, 2).Line - 1], Is.EqualTo("[[detector]]"), "not given: its section");
        Assert.That(file.PlaceOf(VaryKeys.Key, 9), Is.EqualTo(default(FilePlace)));
    }

    [Test]
    public void ReadText_Least_HasDefaults()
    {
        StudyFile file = StudyFileReader.ReadText("[study]\nscenario = \"s.toml\"\n", "some/noise.toml");

        Assert.That((file.Title, file.DurationS, file.Arrangement), Is.EqualTo(("noise", (double?)null, "grid")));
        Assert.That(file.Seeds, Has.Count.EqualTo(20).And.Exactly(1).EqualTo(1UL));
        Assert.That((file.SubjectSeeds.Count, file.Varied.Count, file.TuningSeeds.Count, file.Requirements.Count), Is.EqualTo((0, 0, 0, 0)));
        Assert.That(file.FailurePoint, Is.Null);
        Assert.That(file.Detectors.Select(d => (d.Label, d.Adapter)), Is.EqualTo(new[] { ("ours", "library") }));
    }

    [Test]
    public void ReadText_SeedsInAList_AreThose()
    {
        StudyFile file = StudyFileReader.ReadText(
            "[study]\nscenario = \"s.toml\"\nseeds = [7, 3, 9007199254740991]\nsubject_seeds = [5]\n", "a.toml");

        Assert.That(file.Seeds, Is.EqualTo(new ulong[] { 7, 3, 9007199254740991 }));
        Assert.That(file.SubjectSeeds, Is.EqualTo(new ulong[] { 5 }));
    }
}
