// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary>Stretches that are unusable and clocks that are off, from the scenario to the table and back through files.</summary>
[TestFixture]
public sealed class AcquisitionTests : CommandTest
{
    // Wander of 1.2 mV rms in a range of ±2 mV clips for seconds; the light lies on a device of its own.
    private const string Faulty =
        "[ecg_amplifier]\nfull_scale_mv = 2\nbaseline_wander_mv_rms = 1.2\n"
        + "[second_device]\ncarries = \"light\"\nclock_offset_ms = 20\nclock_ppm = 50\n";

    [Test]
    public void RecordDetectScore_FaultyChain_GivesTheScoresOfRun()
    {
        string scenario = Scenario(Faulty, seconds: 60);
        Command.Run("record", scenario, "--out", At("rec"));
        Command.Run("detect", At("rec"), "--out", At("det"));
        Answer score = Command.Run("score", At("rec", "truth.csv"), At("det", "detections.csv"), "--json");
        Answer run = Command.Run("run", scenario, "--out", At("run"), "--json");

        using JsonDocument scored = JsonDocument.Parse(score.Out);
        using JsonDocument ran = JsonDocument.Parse(run.Out);
        foreach (string part in new[] { "scores", "readings", "is_exact", "scored_begin_s", "scored_end_s" })
        {
            Assert.That(scored.RootElement.GetProperty(part).GetRawText(), Is.EqualTo(ran.RootElement.GetProperty(part).GetRawText()), part);
        }

        Assert.That(File.ReadAllBytes(At("rec", "acquisition.csv")), Is.EqualTo(File.ReadAllBytes(At("run", "acquisition.csv"))));
        string[] rows = [.. File.ReadLines(At("run", "acquisition.csv")).Where(l => l.StartsWith("ecg,unusable_saturated,", StringComparison.Ordinal))];
        JsonElement beats = ran.RootElement.GetProperty("scores")[0];
        Assert.That(rows, Has.Length.GreaterThan(3));
        Assert.That(beats.GetProperty("unusable_reference_count").GetInt64(), Is.GreaterThan(3));
        Assert.That(beats.GetProperty("clock_offset_ms").GetDouble(), Is.Zero);
        JsonElement feet = ran.RootElement.GetProperty("scores")[1];
        Assert.That((feet.GetProperty("clock_offset_ms").GetDouble(), feet.GetProperty("clock_ppm").GetDouble()), Is.EqualTo((20.0, 50.0)));
        Assert.That(feet.GetProperty("unusable_reference_count").GetInt64(), Is.Zero, "the light is usable throughout");
    }

    [Test]
    public void Run_FaultyChain_SaysSoUnderTheTable()
    {
        Answer answer = Command.Run("run", Scenario(Faulty, seconds: 60));

        string[] lines = [.. answer.Out.Split('\n')];
        Assert.That(lines, Has.Some.EqualTo(
            "chain of infrared: declared delay -0.25 ms; clock 20 ms late at the start, 50 ppm fast; all taken off the times above, the clock not off readings"));
        Assert.That(lines, Has.Some.Match("^unusable, counted apart: [1-9][0-9]* true events and [0-9]+ detections of ecg r_peak$"));
        Assert.That(lines, Has.None.StartsWith("chain of ecg"));
    }

    // The low-pass's 5.144890 ms: scipy.signal.group_delay(scipy.signal.butter(2, 40, fs=250)) at 0 Hz; it stands with what the maker declares, 1 ms.
    [Test]
    public void Run_SlowEarlyClockBehindAFilter_SaysSo()
    {
        Answer answer = Command.Run("run", Scenario(
            "[device]\nclock_offset_ms = -5\nclock_ppm = -20\ndeclared_delay_ms = 1\n[ecg_amplifier]\nlow_pass_hz = 40\n", seconds: 20));

        Assert.That(answer.Out.Split('\n'), Has.Some.EqualTo(
            "chain of ecg: declared delay 6.14489 ms; clock 6 ms early at the start, 20 ppm slow; all taken off the times above, the clock not off readings"));
    }

    [Test]
    public void Run_SoundChain_SaysNothingOfIt()
    {
        Answer answer = Command.Run("run", Scenario());

        Assert.That(answer.Out.Split('\n'), Has.None.StartsWith("unusable").And.None.StartsWith("chain of"));
    }
}
