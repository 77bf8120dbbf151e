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

    private static ScoreReport Synthetic(LibraryDetector detector)
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(Root, "waveforms", "scenarios", "rest-finger.toml"));
        SensorStream stream = scenario.CreateStream();
        var scorer = new Scorer(stream.Format, stream.Format.Clock.Nanoseconds(stream.EndTick));
        return new Runner(stream, stream.Truth, detector, scorer).Run().Report!;
    }
}
