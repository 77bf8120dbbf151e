// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Files.Rows;
using SensorSim.Scenarios;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Running;
using SensorSim.Tests.Shared;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Plans and cases for the tests; their truth either by hand or of a shipped scenario.</summary>
internal static class TestCases
{
    private static readonly string s_folder = Path.Combine(CCompiler.Root, "waveforms", "scenarios");

    /// <summary>A plan with one case; requirements are TOML, each beginning with its id.</summary>
    public static VectorPlan Plan(string scenario, double durationS, string requirements, string more = "", string level = "pass")
    {
        string[] ids = [.. requirements.Split('\n').Where(l => l.StartsWith("id = ", StringComparison.Ordinal)).Select(l => l[5..])];
        string text = FormattableString.Invariant(
            $"[set]\ntitle = \"test\"\n{requirements}\n[[case]]\nname = \"one\"\nscenario = \"{scenario}\"\nduration_s = {durationS}\nlevel = \"{level}\"\nrequirements = [{string.Join(", ", ids)}]\n{more}\n");
        return VectorPlanReader.ReadText(text, Path.Combine(s_folder, "test-plan.toml"));
    }

    public static PlannedCase Case(string requirements, double durationS = 30, string scenario = "rest-finger.toml", string more = "", string level = "pass") =>
        Plan(scenario, durationS, requirements, more, level).Cases[0];

    public static string Requirement(string id, string kind, string rule, string more = "", string channel = "") =>
        $"[[requirement]]\nid = \"{id}\"\ntext = \"t\"\nclause = \"own\"\nkind = \"{kind}\"\nrule = \"{rule}\"\n{(channel.Length > 0 ? $"channel = \"{channel}\"\n" : "")}{more}\n";

    public static TruthEvent Beat(double atS, long id, TruthFlags flags = TruthFlags.None) =>
        new(ChannelName.Ecg, MarkKind.RPeak, (long)Math.Round(atS * 1e9), 1, id, BeatClass.Normal, flags);

    /// <summary>Clock and length of a record by hand: device time = declared delay + offset + body time.</summary>
    public static List<AcquisitionRow> Acquisition(double durationS, double delayMs = 0, params (string Item, double FromS, double ToS)[] more)
    {
        long endNs = (long)Math.Round(durationS * 1e9);
        var rows = new List<AcquisitionRow>();
        foreach (ChannelName channel in new[] { ChannelName.Ecg, ChannelName.Infrared })
        {
            rows.Add(new(channel, AcquisitionItems.DeclaredDelayNs, 0, null, delayMs * 1e6, "ns", ""));
            rows.Add(new(channel, AcquisitionItems.ClockSegmentPpm, 0, endNs, 0, "ppm", ""));
            rows.Add(new(channel, AcquisitionItems.ClockOffsetNs, 0, endNs, 0, "ns", ""));
        }

        rows.AddRange(more.Select(m => new AcquisitionRow(ChannelName.Ecg, m.Item, (long)Math.Round(m.FromS * 1e9), (long)Math.Round(m.ToS * 1e9), double.NaN, "", "")));
        return rows;
    }

    public static DetectionRow Mark(MarkKind kind, double atS, double value = double.NaN, double lateMs = 200, ChannelName channel = ChannelName.Ecg) => new(
        channel, kind, 0, (long)Math.Round(atS * 1e9), value, 255, null, null, null, (long)Math.Round((atS * 1e9) + (lateMs * 1e6)));

    /// <summary>Truth, acquisition and the library's answers of a case.</summary>
    public static MadeRun Make(PlannedCase planned)
    {
        SensorStream stream = planned.Scenario.CreateStream();
        var keep = new KeepSink();
        using var text = new MemoryStream();
        using var file = new AcquisitionFile(text, planned.Scenario, stream.Format);
        Scoring.Scorer scorer = new(stream, ScoredRows.Options(stream.Format));
        var judged = new List<Scoring.JudgedReading>();
        scorer.ReadingJudged = judged.Add;
        using var library = new LibraryDetector(planned.Calibration?.Calibration);
        RunOutcome outcome = new Runner(stream, stream.Truth, library, scorer, keep, file).Run();
        file.Complete();
        using var marks = new MemoryStream();
        using (var writer = new DetectionsCsvWriter(marks, stream.Format))
        {
            foreach (Mark mark in keep.Marks)
            {
                writer.Write(mark);
            }
        }

        using var acquisition = new AcquisitionCsvReader(new MemoryStream(text.ToArray()), "acquisition.csv");
        using var detections = new DetectionsCsvReader(new MemoryStream(marks.ToArray()), "detections.csv");
        return new MadeRun(keep.Truth, [.. acquisition.ReadAll()], [.. detections.ReadAll()], outcome, judged);
    }
}

internal sealed record MadeRun(
    IReadOnlyList<TruthEvent> Truth, IReadOnlyList<AcquisitionRow> Acquisition, IReadOnlyList<DetectionRow> Answers, RunOutcome Outcome, IReadOnlyList<Scoring.JudgedReading> Readings);
