// SPDX-License-Identifier: MIT
using System.Text;
using System.Text.Json;
using SensorSim.Files;
using SensorSim.Files.Output;
using SensorSim.Scenarios;
using SensorSim.Scoring.Report;
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Detectors;

namespace SensorSim.Studies.Tests.Running;

/// <summary>Scoring files that a run has written gives the figures of that run.</summary>
[TestFixture]
public sealed class FileScoringTests
{
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("studies-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [TestCase(60)]
    [TestCase(47.003)]
    [TestCase(120.5)]
    public void Score_FilesOfARun_GivesTheFiguresOfTheRun(double seconds)
    {
        RunSummary run = RunIntoFiles(Runs.Read(seconds));

        RunSummary scored = Scoring().Score();

        Assert.That(Figures(scored), Is.EqualTo(Figures(run)));

        // The stream ends on a whole tick of 2 ms, and that is what acquisition.csv says.
        Assert.That(scored.DurationS, Is.EqualTo(Math.Ceiling(seconds * 500) / 500));
        FootCounts(scored, out long matched, out long missed);
        Assert.That((matched > 20, missed > 3), Is.EqualTo((true, true)), "the run must not be perfect");
    }

    // Wander that leaves the range for seconds, two devices whose clocks differ, unusable stretches of both kinds of channel.
    private const string Faulty = """
        [ecg_amplifier]
        full_scale_mv = 2
        baseline_wander_mv_rms = 1.2
        [movement]
        activity = "walking"
        [optics]
        full_scale_na = 2500
        movement_artefact_ratio = 20
        [device]
        clock_offset_ms = -37.25
        clock_ppm = -60
        [second_device]
        carries = "light"
        clock_offset_ms = 250
        clock_ppm = 85.3
        radio_delay_ms = 1900
        declared_delay_ms = 1800
        """;

    [TestCase(60)]
    [TestCase(313.7)]
    public void Score_FilesOfAFaultyRun_GivesTheFiguresOfTheRun(double seconds)
    {
        RunSummary run = RunIntoFiles(Runs.Read(seconds, Faulty));

        RunSummary scored = Scoring().Score();

        Assert.That(Figures(scored), Is.EqualTo(Figures(run)));
        Assert.That(run.Report.Scores.Select(s => s.UnusableTruth), Has.All.GreaterThan(2));
        Assert.That(run.Report.Scores.Select(s => s.ReferenceCount), Has.All.GreaterThan(10));
        EventScore light = run.Report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        Assert.That((light.ClockOffsetMs, light.ClockPpm), Is.EqualTo((350.0, 85.3)), "250 + 1900 - 1800");
        Assert.That(Figures((Scoring() with { AcquisitionPath = null, DurationS = run.DurationS }).Score()), Is.Not.EqualTo(Figures(run)));
    }

    // A run writes rows in order of their ends; other hands may sort them otherwise.
    [Test]
    public void Score_RowsOfAcquisitionInAnyOrder_GiveTheSameFigures()
    {
        RunSummary run = RunIntoFiles(Runs.Read(60, Faulty));
        string[] lines = File.ReadAllLines(Path.Combine(_folder, "acquisition.csv"));
        string turned = Write("turned.csv", string.Join('\n', [lines[0], .. lines[1..].Reverse()]) + "\n");

        Assert.That(lines.Count(l => l.Contains(",unusable_", StringComparison.Ordinal)), Is.GreaterThan(5));
        Assert.That(Figures((Scoring() with { AcquisitionPath = turned }).Score()), Is.EqualTo(Figures(run)));
    }

    [TestCase("ecg,clock_segment_ppm,0,20000000000,1,ppm,\necg,clock_segment_ppm,20000000000,,2,ppm,\n", "clock_segment_ppm of ecg has more than one value")]
    [TestCase("ecg,clock_segment_ppm,0,,2000000,ppm,\n", "clock_segment_ppm of ecg must be from -100000 to 100000")]
    [TestCase("ecg,clock_offset_ns,0,,,ns,\n", "clock_offset_ns of ecg has no value")]
    [TestCase("red,declared_delay_ns,0,,1e300,ns,\n", "declared_delay_ns of red must be from -1e15 to 1e15")]
    public void Score_ClockThatCannotBe_IsNamed(string rows, string expected)
    {
        string truth = Write("beats.csv", "time_s\n10\n12\n");
        string marks = Write("d.csv", "channel,kind,time_ns\necg,r_peak,10000000000\n");
        string acquisition = Write("a.csv", "channel,item,begin_ns,end_ns,value,unit,label\n" + rows);
        Assert.That(
            () => new FileScoring { TruthPath = truth, MarksPath = marks, AcquisitionPath = acquisition, DurationS = 20 }.Score(),
            Throws.TypeOf<InputFileException>().With.Message.StartsWith($"{acquisition}: {expected}"));
    }

    [Test]
    public void Score_WithoutAcquisition_LosesTheDeclaredDelay()
    {
        RunSummary run = RunIntoFiles(Runs.Read(60));
        double delayMs = run.Report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!.DeclaredDelayMs;

        RunSummary scored = (Scoring() with { AcquisitionPath = null, DurationS = 60 }).Score();

        double with = run.Report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!.TimingBiasMs!.Value;
        double without = scored.Report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!.TimingBiasMs!.Value;
        Assert.That(without - with, Is.EqualTo(delayMs).Within(1e-6));
    }

    [Test]
    public void Score_ExcludedStretch_TakesItsBeatsOut()
    {
        RunIntoFiles(Runs.Read(60));
        string excluded = Write("excluded.csv", "begin_s,end_s,reason\n20,30,cable\n");
        long inside = File.ReadLines(Path.Combine(_folder, "truth.csv")).Skip(1).Select(l => l.Split(','))
            .Count(f => f[1] == "r_peak" && long.Parse(f[2], System.Globalization.CultureInfo.InvariantCulture) is >= 20_000_000_000 and < 30_000_000_000);

        var all = Scoring().Score().Report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        var less = (Scoring() with { ExcludedPath = excluded }).Score().Report.Find(ChannelName.Ecg, MarkKind.RPeak)!;

        Assert.That(inside, Is.GreaterThan(7));
        Assert.That(all.ReferenceCount - less.ReferenceCount, Is.EqualTo(inside));
        Assert.That(less.UnusableTruth, Is.EqualTo(inside));
    }

    [TestCase(150, 1)]
    [TestCase(20, 0)]
    public void Score_Window_DecidesWhatMatches(double windowMs, double sensitivity)
    {
        string truth = Write("beats.csv", "sample,label,confidence\n5000,normal,high\n6000,normal,high\n7000,normal,high\n");
        string marks = Write("d.csv", "channel,kind,time_ns\necg,r_peak,10030000000\necg,r_peak,12030000000\necg,r_peak,14030000000\n");

        RunSummary scored = new FileScoring { TruthPath = truth, MarksPath = marks, RateHz = 500, DurationS = 20, WindowMs = windowMs }.Score();

        // Samples 5000, 6000 and 7000 at 500 Hz are 10, 12 and 14 s; each answer is 30 ms late.
        var row = scored.Report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That((row.ReferenceCount, row.Sensitivity), Is.EqualTo((3L, (double?)sensitivity)));
        Assert.That(row.TimingBiasMs, sensitivity == 1 ? Is.EqualTo(30).Within(1e-9) : Is.Null);
    }

    [Test]
    public void Score_NoMark_IsSilent()
    {
        string truth = Write("beats.csv", "time_s\n10\n12\n");
        string marks = Write("d.csv", "channel,kind,time_ns\n");

        RunSummary scored = new FileScoring { TruthPath = truth, MarksPath = marks, DurationS = 20 }.Score();

        Assert.That((scored.Verdict, scored.IsMet), Is.EqualTo((Verdict.Silent, false)));
    }

    [TestCase("none.csv", "d.csv", "none.csv: there is no such file")]
    [TestCase("beats.csv", "none.csv", "none.csv: there is no such file")]
    [TestCase("d.csv", "beats.csv", "d.csv")]
    [TestCase("empty.csv", "d.csv", "empty.csv")]
    [TestCase("beats.csv", "empty.csv", "empty.csv")]
    [TestCase("beats.csv", "bad.csv", "bad.csv, line 2, column ")]
    public void Score_WrongFile_IsNamed(string truth, string marks, string expected)
    {
        Write("beats.csv", "time_s\n10\n12\n");
        Write("d.csv", "channel,kind,time_ns\necg,r_peak,10000000000\n");
        Write("empty.csv", "");
        Write("bad.csv", "channel,kind,time_ns\necg,r_peak,ten\n");

        Assert.That(
            () => new FileScoring { TruthPath = Path.Combine(_folder, truth), MarksPath = Path.Combine(_folder, marks), DurationS = 20 }.Score(),
            Throws.TypeOf<InputFileException>().With.Message.StartsWith(Path.Combine(_folder, expected)));
    }

    private RunSummary RunIntoFiles(Scenario scenario)
    {
        using var folder = new OutputFolder(_folder);
        SensorStream stream = scenario.CreateStream();
        using var files = new FileSink(folder, stream.Format, withTruth: true, withDetections: true, withSamples: false);
        var detector = new KnowingDetector(scenario)
        {
            ErrorMs = id => ((id * 37) % 41) - 12.3,
            Answers = id => id % 7 != 3,
        };
        using var acquisition = new AcquisitionFile(folder.CreateFile("acquisition.csv"), scenario, stream.Format);
        RunOutcome outcome = new Runner(stream, stream.Truth, detector, Runs.Scorer(stream), files, acquisition).Run();
        files.Complete();
        acquisition.Complete();
        folder.Commit();
        return RunSummary.FromScenario(scenario, outcome);
    }

    private FileScoring Scoring() => new()
    {
        TruthPath = Path.Combine(_folder, "truth.csv"),
        MarksPath = Path.Combine(_folder, "detections.csv"),
        AcquisitionPath = Path.Combine(_folder, "acquisition.csv"),
    };

    private string Write(string name, string text)
    {
        string path = Path.Combine(_folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    // Every figure, as text, so that not even the last digit may differ.
    private static string Figures(RunSummary summary)
    {
        using var stream = new MemoryStream();
        SummaryJson.Write(stream, summary);
        using var json = JsonDocument.Parse(Encoding.UTF8.GetString(stream.ToArray()));
        string[] names = ["verdict", "scored_begin_s", "scored_end_s", "match_window_ms", "is_exact", "scores", "readings"];
        return string.Join('\n', names.Select(n => $"{n}: {json.RootElement.GetProperty(n).GetRawText()}"));
    }

    private static void FootCounts(RunSummary summary, out long matched, out long missed)
    {
        var row = summary.Report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        (matched, missed) = (row.Matched, row.Missed);
    }
}
