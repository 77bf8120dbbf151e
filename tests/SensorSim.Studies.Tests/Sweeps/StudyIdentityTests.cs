// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Sweeps;

[TestFixture]
public sealed class StudyIdentityTests
{
    private static readonly StudyPlan s_plan = SmallStudy.Plan(detectors: 2) with { SubjectSeeds = [4, 5] };

    private static IEnumerable<TestCaseData> RunChanges() => Cases(
        ("seed", s_plan with { Seeds = [7, 8, 10] }),
        ("fewer seeds", s_plan with { Seeds = [7, 8] }),
        ("persons", s_plan with { SubjectSeeds = [4, 6] }),
        ("person from list to list", s_plan with { Seeds = [7, 8, 9, 4], SubjectSeeds = [5] }),
        ("value of a point", s_plan with { Points = [s_plan.Points[0], s_plan.Points[1] with { Values = [-6.000000000000001] }] }),
        ("own value", s_plan with { Scenario = s_plan.Scenario.With([new KeyValue((NumberKey)AllKeys.Find("heart.rate_bpm")!, 71)]) }),
        ("scenario", s_plan with { Scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 15\n", "s.toml") }),
        ("person of the scenario", s_plan with { Scenario = s_plan.Scenario.WithSubject(3) }),
        ("constant", Detector(d => d with { Constants = new Dictionary<string, double> { ["detector.a"] = 1 } })),
        ("control", Detector(d => d with { Control = "light_level" })),
        ("closed loop", Detector(d => d with { IsLoopClosed = true })),
        ("hang", Detector(d => d with { HangS = 5 })),
        ("calibration", Detector(d => d with { Calibration = new DetectorCalibration { TimeOfDayH = 1 } })),
        ("curve of a calibration", Detector(d => d with { Calibration = new DetectorCalibration { Pressure = new PressureCurve("linear", [new CuffMeasurement(200, 120, 80)]) } })));

    private static IEnumerable<TestCaseData> OtherChanges() => Cases(
        ("title", s_plan with { Title = "other" }),
        ("label", Detector(d => d with { Label = "other" })),
        ("limit", s_plan with { Requirements = [SmallStudy.Requirement("r_peak_sensitivity_min", 0.91)] }),
        ("failure point", s_plan with { FailurePoint = new FailurePointSettings { PassFraction = 0.5 } }));

    private static IEnumerable<TestCaseData> NoChanges() => Cases(
        ("file", s_plan with { File = "elsewhere/other.toml" }),
        ("comment", s_plan with { Text = "# more\n" }));

    [TestCaseSource(nameof(RunChanges))]
    public void Of_ChangeThatReachesTheRows_IsAnotherStudy(StudyPlan changed)
    {
        Assert.That(SmallStudy.Identity(changed).OfRuns, Is.Not.EqualTo(SmallStudy.Identity(s_plan).OfRuns));
        Assert.That(SmallStudy.Identity(changed).OfAll, Is.Not.EqualTo(SmallStudy.Identity(s_plan).OfAll));
    }

    [TestCaseSource(nameof(OtherChanges))]
    public void Of_ChangeThatReachesTheResultsOnly_HasTheSameRuns(StudyPlan changed)
    {
        Assert.That(SmallStudy.Identity(changed).OfRuns, Is.EqualTo(SmallStudy.Identity(s_plan).OfRuns));
        Assert.That(SmallStudy.Identity(changed).OfAll, Is.Not.EqualTo(SmallStudy.Identity(s_plan).OfAll));
    }

    [TestCaseSource(nameof(NoChanges))]
    public void Of_ChangeThatReachesNothing_IsTheSameStudy(StudyPlan changed) =>
        Assert.That(SmallStudy.Identity(changed).OfAll, Is.EqualTo(SmallStudy.Identity(s_plan).OfAll));

    [Test]
    public void Of_AnotherDetector_IsAnotherStudy()
    {
        IDetectorFactory[] others = [new SmallStudy.Factory("other 1.0", d => d), new LibraryFactory()];
        Assert.That(StudyIdentity.Of(s_plan, others).OfRuns, Is.Not.EqualTo(SmallStudy.Identity(s_plan).OfRuns));
    }

    private static StudyPlan Detector(Func<DetectorChoice, DetectorChoice> change) =>
        s_plan with { Detectors = [s_plan.Detectors[0], change(s_plan.Detectors[1])] };

    private static IEnumerable<TestCaseData> Cases(params (string Name, StudyPlan Plan)[] cases) =>
        cases.Select(c => new TestCaseData(c.Plan).SetArgDisplayNames(c.Name));
}
