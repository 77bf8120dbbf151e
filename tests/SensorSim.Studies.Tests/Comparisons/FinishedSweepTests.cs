// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Output;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;
using SensorSim.Studies.Tests.Sweeps;

namespace SensorSim.Studies.Tests.Comparisons;

/// <summary>Sweeps written to a folder and read back, and what cannot be paired.</summary>
[TestFixture]
public sealed class FinishedSweepTests
{
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("compare-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void Read_Rows_AreThoseThatWereWritten()
    {
        StudyPlan plan = SmallStudy.Plan(detectors: 2) with { SubjectSeeds = [4, 5] };
        RunRow[] rows = Rows(plan);
        FinishedSweep back = Written("a", plan, rows);
        Assert.That(back.Results.Rows.Select(RowBytes.Of), Is.EqualTo(rows.Select(RowBytes.Of)));
    }

    [Test]
    public void Read_Plan_TellsPointsSeedsAndRequirements()
    {
        StudyPlan plan = SmallStudy.Plan(detectors: 2) with { SubjectSeeds = [4, 5], FailurePoint = new FailurePointSettings { PassFraction = 0.9, Shape = CurveShape.Probit, Resamples = 333 } };
        StudyPlan back = Written("a", plan, Rows(plan)).Summary.Plan;
        Assert.That(back.Points.Select(p => p.Values), Is.EqualTo(plan.Points.Select(p => p.Values)));
        Assert.That(back.Seeds, Is.EqualTo(plan.Seeds));
        Assert.That(back.SubjectSeeds, Is.EqualTo(plan.SubjectSeeds));
        Assert.That(back.Requirements, Is.EqualTo(plan.Requirements));
        Assert.That(back.FailurePoint, Is.EqualTo(plan.FailurePoint));
        Assert.That(back.Detectors.Select(d => d.Label), Is.EqualTo(plan.Detectors.Select(d => d.Label)));
        Assert.That(back.Scenario.DurationS, Is.EqualTo(plan.Scenario.DurationS));
    }

    [Test]
    public void Pair_AnotherDetector_HasTheSameStreams()
    {
        StudyPlan plan = SmallStudy.Plan();
        StudyPlan other = plan with { Detectors = [plan.Detectors[0] with { Label = "other", HangS = 3 }] };
        ComparedPair pair = ComparedPair.Of(Written("a", plan, Rows(plan)), null, Written("b", other, Rows(other)), null);
        Assert.That(pair.Sides.Select(s => s.Label), Is.EqualTo(new[] { "detector 1", "other" }));
        Assert.That(pair.Results.Rows, Has.Count.EqualTo(12));
    }

    [Test]
    public void Pair_RunsThatOneLacks_AreLeftOutAndTold()
    {
        StudyPlan plan = SmallStudy.Plan();
        ComparedPair pair = ComparedPair.Of(Written("a", plan, Rows(plan)), null, Written("b", plan, Rows(plan)[1..]), null);
        Assert.That(pair.Results.Rows.Select(r => r.Run), Is.EqualTo(Enumerable.Range(2, 10)));
        Assert.That(pair.Notes, Is.EqualTo(new[] { "1 run that only one of the two has is left out." }));
    }

    [Test]
    public void Pair_TwoOfOneFolder_NeedsNoLabels()
    {
        StudyPlan plan = SmallStudy.Plan(detectors: 2);
        FinishedSweep sweep = Written("a", plan, Rows(plan));
        ComparedPair pair = ComparedPair.Of(sweep, null, sweep, null);
        Assert.That(pair.Sides.Select(s => s.Label), Is.EqualTo(new[] { "detector 1", "detector 2" }));
        Assert.That(pair.Sides[1].OwnRun(6), Is.EqualTo(7));
        Assert.That(() => ComparedPair.Of(sweep, "detector 1", sweep, "detector 1"), Throws.InstanceOf<InputFileException>().With.Message.Contains("with itself"));
        Assert.That(() => ComparedPair.Of(sweep, "detector 9", sweep, null), Throws.InstanceOf<InputFileException>().With.Message.Contains("has no detector detector 9; its detectors are detector 1, detector 2"));
    }

    [TestCaseSource(nameof(Others))]
    public void Pair_OtherStreams_IsRefusedWithWhatDiffers(StudyPlan other, string why)
    {
        StudyPlan plan = SmallStudy.Plan();
        FinishedSweep first = Written("a", plan, Rows(plan));
        FinishedSweep second = Written("b", other, Rows(other));
        Assert.That(() => ComparedPair.Of(first, null, second, null), Throws.InstanceOf<InputFileException>().With.Message.Contains(why));
    }

    [Test]
    public void Read_NoFinishedSweep_IsRefused()
    {
        Assert.That(() => FinishedSweep.Read(At("none")), Throws.InstanceOf<InputFileException>().With.Message.Contains("there is no such folder"));
        Directory.CreateDirectory(At("half"));
        File.WriteAllText(Path.Combine(At("half"), SweepFolder.JournalName), "");
        Assert.That(() => FinishedSweep.Read(At("half")), Throws.InstanceOf<InputFileException>().With.Message.Contains("is not finished"));
    }

    // What is wrong tells what helps: rows that are gone come only from another sweep, a summary from the same one.
    [Test]
    public void Read_FilesGoneOrDamaged_SaysWhatHelps()
    {
        StudyPlan plan = SmallStudy.Plan();
        Written("a", plan, Rows(plan));
        string rows = Path.Combine(At("a"), SweepFiles.RunsParquet);
        File.WriteAllBytes(rows, File.ReadAllBytes(rows)[..^9]);
        Refused($"{rows}: this is no complete Parquet file; sweep the study into a new folder.");
        File.Delete(rows);
        Refused($"{At("a")}: runs.parquet is missing; sweep the study into a new folder.");
        File.Delete(Path.Combine(At("a"), SweepFiles.Summary));
        Refused($"{At("a")}: summary.json and runs.parquet are missing; give the folder of a finished sweep.");
        Written("b", plan, Rows(plan));
        File.Move(Path.Combine(At("b"), SweepFiles.RunsParquet), rows);
        Refused($"{At("a")}: summary.json is missing; the same sweep command makes it again.");

        void Refused(string message) => Assert.That(() => FinishedSweep.Read(At("a")), Throws.InstanceOf<InputFileException>().With.Message.EqualTo(message));
    }

    [Test]
    public void Read_FilesOfTwoStudies_IsRefused()
    {
        StudyPlan plan = SmallStudy.Plan();
        Written("a", plan, Rows(plan));
        Written("b", plan with { Title = "other" }, Rows(plan));
        File.Copy(Path.Combine(At("b"), SweepFiles.RunsParquet), Path.Combine(At("a"), SweepFiles.RunsParquet), overwrite: true);
        Assert.That(() => FinishedSweep.Read(At("a")), Throws.InstanceOf<InputFileException>().With.Message.Contains("are of different studies"));
    }

    private static IEnumerable<TestCaseData> Others()
    {
        StudyPlan plan = SmallStudy.Plan();
        yield return new TestCaseData(plan with { Seeds = [7, 8, 10] }, "the seeds differ (3 from 7 to 9; 3 from 7 to 10)").SetArgDisplayNames("seeds");
        yield return new TestCaseData(plan with { SubjectSeeds = [3] }, "the persons differ").SetArgDisplayNames("persons");
        yield return new TestCaseData(SmallStudy.Plan([12, -5]), "the points differ").SetArgDisplayNames("points");
        yield return new TestCaseData(plan with { Scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 15\n", "s.toml") }, "the scenario").SetArgDisplayNames("scenario");
    }

    private static RunRow[] Rows(StudyPlan plan) =>
    [
        .. Enumerable.Range(0, (int)plan.RunCount).Select(run =>
        {
            RunRow events = ComparedColumnsTests.Row(run, MarkKind.RPeak);
            RunRow readings = ComparedColumnsTests.Row(run, MarkKind.HeartRateBpm);
            return events with
            {
                Verdict = run % 5 == 1 ? Verdict.Crashed : Verdict.Answered,
                VerdictReason = run % 5 == 1 ? "a, \"b\"" : "",
                Events = [events.Events[0] with { TimingP95Ns = run % 3 == 0 ? null : run, TimingSquaresNs = (Int128)9999999999999999999999999999m }],
                Readings = run % 4 == 2 ? [] : [readings.Readings[0] with { FirstReadingNs = run % 2 == 0 ? null : 5 }],
            };
        }),
    ];

    private string At(string name) => Path.Combine(_folder, name);

    private FinishedSweep Written(string name, StudyPlan plan, RunRow[] rows)
    {
        using var folder = new OutputFolder(At(name));
        SmallStudy.Write(folder, new SweepResults(new StudyResults(plan, rows), SmallStudy.Identity(plan)));
        folder.Commit();
        return FinishedSweep.Read(At(name));
    }
}
