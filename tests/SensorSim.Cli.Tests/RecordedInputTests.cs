// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Detectors;
using SensorSim.Files.Recordings;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Tests;

/// <summary>A real ECG goes the same way as a synthetic one; origin and limits: waveforms/recorded/README.md.</summary>
[TestFixture]
public sealed class RecordedInputTests : CommandTest
{
    private static string Recorded(string name) => Path.Combine(Root, "waveforms", "recorded", name);

    [Test]
    public void DetectThenScore_RecordedEcg_MissesAtMostTwoAndAddsAtMostTwo()
    {
        Answer detected = Command.Run(
            "detect", Recorded("ambulatory-ecg.csv"), "--rate-hz", "360", "--unit", "mv", "--channel", "ecg", "--out", At("answers"));
        Assert.That(detected.Code, Is.Zero, detected.Error);
        Answer scored = Command.Run(
            "score", Recorded("ambulatory-ecg-beats.csv"), At("answers", "detections.csv"), "--rate-hz", "360", "--duration-s", "150",
            "--exclude", Recorded("ambulatory-ecg-unreadable.csv"), "--json");
        Assert.That(scored.Code, Is.Zero, scored.Error);
        using JsonDocument json = JsonDocument.Parse(scored.Out);
        JsonElement row = json.RootElement.GetProperty("scores")[0];

        // Firm rows from 15 s (lead-in) to 149 s outside of the unreadable stretches, counted in the list by hand: 194.
        Assert.That(row.GetProperty("reference_count").GetInt32(), Is.EqualTo(194));
        Assert.That(row.GetProperty("missed").GetInt32(), Is.LessThanOrEqualTo(2));
        Assert.That(row.GetProperty("extra").GetInt32(), Is.LessThanOrEqualTo(2));
    }

    [Test]
    public void Detect_InvertedNumbers_GivesTheSamePlaces()
    {
        string[] lines = File.ReadAllLines(Recorded("ambulatory-ecg.csv"));
        string upsideDown = Write(
            "down.csv",
            string.Join('\n', lines.Take(20_000).Select((l, i) => i == 0 ? l : l.StartsWith('-') ? l[1..] : "-" + l)) + "\n");
        string upright = Write("up.csv", string.Join('\n', lines.Take(20_000)) + "\n");
        Command.Run("detect", upright, "--rate-hz", "360", "--out", At("up"));
        Command.Run("detect", upsideDown, "--rate-hz", "360", "--inverted", "--out", At("down"));

        // Rounding towards the lower number is not symmetric: fractions of a sample may differ in the last of 256 places.
        (string Kind, long TimeNs)[] up = Marks(At("up", "detections.csv"));
        (string Kind, long TimeNs)[] down = Marks(At("down", "detections.csv"));
        Assert.That(up, Has.Length.GreaterThan(50));
        Assert.That(down.Select(m => m.Kind), Is.EqualTo(up.Select(m => m.Kind)));
        Assert.That(down.Zip(up, (d, u) => Math.Abs(d.TimeNs - u.TimeNs)), Is.All.LessThan(50_000L));
    }

    [Test]
    public void Score_MarksInReverseOrder_IsRefused()
    {
        Command.Run("detect", Recorded("ambulatory-ecg.csv"), "--rate-hz", "360", "--out", At("answers"));
        string[] lines = File.ReadAllLines(At("answers", "detections.csv"));
        string reversed = Write("reversed.csv", string.Join('\n', lines.Take(1).Concat(lines.Skip(1).Reverse())) + "\n");
        Answer answer = Command.Run("score", Recorded("ambulatory-ecg-beats.csv"), reversed, "--rate-hz", "360", "--duration-s", "150");

        Assert.That(answer.Code, Is.EqualTo(2));
        Assert.That(answer.Error, Does.Contain("sort both files by time"));
    }

    [Test]
    public void Score_RateThatContradictsTheTimes_IsRefused()
    {
        Command.Run("detect", Recorded("ambulatory-ecg.csv"), "--rate-hz", "360", "--out", At("answers"));
        Answer answer = Command.Run("score", Recorded("ambulatory-ecg-beats.csv"), At("answers", "detections.csv"), "--rate-hz", "250");

        Assert.That(answer.Code, Is.EqualTo(2));
        Assert.That(answer.Error, Does.Contain("line 2, column").And.Contain("at 250 Hz"));
    }

    [Test]
    public void Detector_SameObjectOnRecordedThenSynthetic_WorksOnBothAsIfNew()
    {
        using var used = new LibraryDetector();
        using (var recording = new ColumnCsvSource(Recorded("ambulatory-ecg.csv"), new ColumnCsvOptions { RateHz = 360 }))
        {
            RunOutcome outcome = new Runner(recording, truth: null, used, scorer: null).Run();
            Assert.That(outcome.MarkCount, Is.GreaterThan(800));
        }

        using var fresh = new LibraryDetector();
        ScoreReport after = Synthetic(used);
        ScoreReport alone = Synthetic(fresh);
        EventScore r = after.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That((r.Missed, r.Extra), Is.EqualTo((0L, 0L)));
        Assert.That(r.TimingBiasMs, Is.EqualTo(alone.Find(ChannelName.Ecg, MarkKind.RPeak)!.TimingBiasMs));
    }

    private static (string Kind, long TimeNs)[] Marks(string path) =>
        [.. File.ReadLines(path).Skip(1).Select(l => l.Split(',')).Select(c => (c[1], long.Parse(c[3], System.Globalization.CultureInfo.InvariantCulture)))];

    private static ScoreReport Synthetic(LibraryDetector detector)
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(Root, "waveforms", "scenarios", "rest-finger.toml"));
        SensorStream stream = scenario.CreateStream();
        var scorer = new Scorer(stream.Format, stream.Format.Clock.Nanoseconds(stream.EndTick));
        return new Runner(stream, stream.Truth, detector, scorer).Run().Report!;
    }
}
