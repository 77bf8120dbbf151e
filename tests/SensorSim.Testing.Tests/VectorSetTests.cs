// SPDX-License-Identifier: MIT
using NUnit.Framework.Interfaces;
using NUnit.Framework.Internal;
using SensorSim.Examples.Threshold;
using SensorSim.Files.Output;
using SensorSim.Scoring;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Testing.Tests.Support;

namespace SensorSim.Testing.Tests;

/// <summary>Sets of known answers as cases of a suite. The set is made here, of a plan of two cases.</summary>
[TestFixture]
public sealed class VectorSetTests
{
    private const string Plan = """
        [set]
        title = "Two cases"

        [[requirement]]
        id = "ECG-1"
        text = "Every beat is found, and nothing else."
        clause = "own"
        channel = "ecg"
        kind = "r_peak"
        rule = "marks"
        sensitivity_min = 0.97
        positive_predictivity_min = 0.97

        [[requirement]]
        id = "PPG-1"
        text = "Every foot is found."
        clause = "own"
        channel = "infrared"
        kind = "pulse_foot_tangent"
        rule = "marks"
        sensitivity_min = 0.9

        [[case]]
        name = "rest"
        about = "a person at rest"
        scenario = "rest.toml"
        seed = 7
        duration_s = 40
        level = "pass"
        requirements = ["ECG-1", "PPG-1"]
        stimulus = []

        [[case]]
        name = "fast"
        scenario = "fast.toml"
        seed = 8
        duration_s = 40
        level = "near_limit"
        disturbance = "rate-change"
        requirements = ["ECG-1"]
        stimulus = []
        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorsim-testing-set-").FullName;

    private string SetFolder => Path.Combine(_folder, "set");

    [OneTimeSetUp]
    public void Make()
    {
        string plan = Path.Combine(_folder, "plan.toml");
        File.WriteAllText(plan, Plan);
        File.WriteAllText(Path.Combine(_folder, "rest.toml"), "[heart]\nrate_bpm = 66\n");
        File.WriteAllText(Path.Combine(_folder, "fast.toml"), "[heart]\nrate_bpm = 110\n");
        using var folder = new OutputFolder(SetFolder);
        SetMaker.Make(SetPlan.Read(plan), folder, _ => [1]);
        folder.Commit();
    }

    [OneTimeTearDown]
    public void Remove() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void VectorSet_HasItsCasesWithTheirRequirements()
    {
        IReadOnlyList<VectorCase> cases = Given.VectorSet(SetFolder);
        Assert.That(cases.Select(c => c.ToString()), Is.EqualTo(new[] { "rest: ECG-1, PPG-1", "fast: ECG-1" }));
        Assert.That(cases[0].EachRequirement().Select(c => c.ToString()), Is.EqualTo(new[] { "rest: ECG-1", "rest: PPG-1" }));
    }

    [Test]
    public void Library_MeetsEveryCase()
    {
        using UnderTest library = UnderTest.Library();
        foreach (VectorCase vectorCase in Given.VectorSet(SetFolder))
        {
            Assert.That(library, Meets.AcceptanceOf(vectorCase));
        }
    }

    [Test]
    public void DetectorOfBeatsOnly_MeetsTheBeatsAndMissesTheFeet()
    {
        VectorCase[] rest = [.. Given.VectorSet(SetFolder)[0].EachRequirement()];
        using UnderTest example = UnderTest.Class<ThresholdDetector>();
        Assert.That(example, Meets.AcceptanceOf(rest[0]));
        Assert.That(() => new ThresholdDetector(), Meets.AcceptanceOf(rest[0]));

        string message = Messages.OfFailure(example, Meets.AcceptanceOf(rest[1]));
        Assert.That(message, Does.Contain("Expected: acceptance of the case rest, PPG-1: Every foot is found. (own)"));
        Assert.That(message, Does.Contain("But was:  PPG-1: "));
        Assert.That(message, Does.Contain("Tested:   ThresholdDetector on the case rest, a person at rest"));
        Assert.That(message, Does.Contain("By hand:  sensorsim vectors compare ").And.Contain("--detector-class SensorSim.Examples.Threshold.ThresholdDetector"));
        Assert.That(Messages.OfFailure(example, Meets.AcceptanceOf(Given.VectorSet(SetFolder)[0])), Does.Contain("PPG-1: ").And.Not.Contain("ECG-1: 0"));
    }

    // The example program takes no setup at all (docs/examples/process): in a case with a calibration it is run without.
    [Test]
    public void Program_ThatTakesNoCalibration_IsRunWithoutAndTheMessageSaysSo()
    {
        VectorCase told = Given.VectorSet("waveforms/vectors").First(c => c.Planned.Calibration is not null);
        using UnderTest program = UnderTest.Program($"python3 {TestFile.Find("docs/examples/process/python/threshold_detector.py")}");
        string message = Messages.OfFailure(program, Meets.AcceptanceOf(told));
        Assert.That(message, Does.Contain($"on the case {told.Name}").And.Contain("(without the calibration of the case: The detector refuses (SetupRefused)"));
        Assert.That(message, Does.Not.Contain(" broke: "));
    }

    [Test]
    public void BrokenDetector_MeetsNothing() => Assert.That(
        Messages.OfFailure(UnderTest.Class<BreakingDetector>(), Meets.AcceptanceOf(Given.VectorSet(SetFolder)[1])), Does.Contain("BreakingDetector broke: The detector threw"));

    [Test]
    public void Answers_InFilesOrAtHand_AreJudgedToo()
    {
        VectorCase fast = Given.VectorSet(SetFolder)[1];
        string answers = Directory.CreateDirectory(Path.Combine(_folder, "answers")).FullName;
        File.Copy(fast.SetCase.ExpectedPath, Path.Combine(answers, "fast.csv"), overwrite: true);
        Assert.That(UnderTest.Answers(answers), Meets.AcceptanceOf(fast));
        Assert.That(() => Meets.AcceptanceOf(Given.VectorSet(SetFolder)[0]).ApplyTo(UnderTest.Answers(answers)), Throws.TypeOf<FileNotFoundException>().With.Message.Contains("rest.csv"));

        TimedMark[] marks = [.. Studies.Running.MarksFile.Read(fast.SetCase.ExpectedPath)];
        Assert.That(marks, Meets.AcceptanceOf(fast));
        TimedMark[] late = [.. marks.Select(m => m with { TimeNs = m.TimeNs + 200_000_000 })];
        Assert.That(Messages.OfFailure(late, Meets.AcceptanceOf(fast)), Does.Contain("ECG-1: ").And.Contain("Look at:  ECG-1 at "));
        Assert.That(() => Meets.AcceptanceOf(fast).ApplyTo(UnderTest.Answers(seed => "x")), Throws.ArgumentException.With.Message.Contains("go by seeds"));
    }

    [Test]
    public void VectorCases_MakeATestOfEachCaseOrRequirement()
    {
        IMethodInfo method = new MethodWrapper(typeof(Holder), nameof(Holder.Takes));
        TestMethod[] byCase = [.. new VectorCasesAttribute(SetFolder).BuildFrom(method, null)];
        Assert.That(byCase.Select(t => t.Name), Is.EqualTo(new[] { "Takes(rest: ECG-1, PPG-1)", "Takes(fast: ECG-1)" }));
        Assert.That(byCase[1].Properties["Category"], Is.EquivalentTo(new[] { "level_near_limit", "disturbance_rate_change", "requirement_ECG_1" }));
        Assert.That(new VectorCasesAttribute(SetFolder) { IsRequirementATest = true }.BuildFrom(method, null).Count(), Is.EqualTo(3));
    }

    [Test]
    public void DamagedSet_MakesATestThatNamesTheFile()
    {
        string damaged = Path.Combine(_folder, "damaged");
        foreach (string file in Directory.EnumerateFiles(SetFolder, "*", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(damaged, Path.GetRelativePath(SetFolder, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        File.AppendAllText(Path.Combine(damaged, "fast", "acceptance.csv"), "\n");
        TestMethod test = new VectorCasesAttribute(damaged).BuildFrom(new MethodWrapper(typeof(Holder), nameof(Holder.Takes)), null).Single();
        Assert.That(test.RunState, Is.EqualTo(RunState.NotRunnable));
        Assert.That(test.Properties.Get("_SKIPREASON"), Does.Contain(Path.Combine("fast", "acceptance.csv")));
        Assert.That(() => Given.VectorSet(damaged), Throws.InstanceOf<FormatException>());
    }

    private sealed class Holder
    {
        public static void Takes(VectorCase vectorCase) => _ = vectorCase;
    }
}
