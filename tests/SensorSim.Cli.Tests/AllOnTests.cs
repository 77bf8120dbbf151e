// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary>The shipped scenario with everything on, shortened, through the command.</summary>
[TestFixture]
public sealed class AllOnTests : CommandTest
{
    private static readonly string[] s_light = ["red", "infrared", "dark"];
    private static readonly string[] s_axes = ["accel_x", "accel_y", "accel_z"];

    private static IEnumerable<TestCaseData> Knobs()
    {
        yield return Case("white_noise_uv_rms = 15", "white_noise_uv_rms = 90", ["ecg"]);
        yield return Case("pops_per_min = 4", "pops_per_min = 40", ["ecg"]);
        yield return Case("muscle_burst_uv_rms = 60", "muscle_burst_uv_rms = 200", ["ecg"]);
        yield return Case("noise_recording_na_rms = 0.3", "noise_recording_na_rms = 3", ["red", "infrared"]);
        yield return Case("level_lux = 300", "level_lux = 500", s_light);
        yield return Case("noise_ug_per_rthz = 150", "noise_ug_per_rthz = 900", s_axes);
        yield return Case("offset_y_mg = -20", "offset_y_mg = 90", ["accel_y"]);
        yield return Case("body_coupling_pf = 1", "body_coupling_pf = 5", ["ecg"]);
        yield return Case("clock_offset_ms = 4", "clock_offset_ms = 40", [.. s_light, .. s_axes]);
        yield return Case("late_ms = 30", "late_ms = 30\nfifo_samples = 3", ["ecg"]);
    }

    [Test]
    public void RecordDetectScore_EverythingOn_GivesTheScoresOfRun()
    {
        string scenario = AllOn("all.toml", "", "");
        Assert.That(Command.Run("record", scenario, "--out", At("rec")).Code, Is.Zero);
        Assert.That(Command.Run("detect", At("rec"), "--out", At("det")).Code, Is.Zero);
        Answer score = Command.Run("score", At("rec", "truth.csv"), At("det", "detections.csv"), "--json");
        Answer run = Command.Run("run", scenario, "--out", At("run"), "--json");
        using JsonDocument scored = JsonDocument.Parse(score.Out);
        using JsonDocument ran = JsonDocument.Parse(run.Out);
        foreach (string part in new[] { "scores", "readings", "is_exact", "scored_begin_s", "scored_end_s", "duration_s", "verdict" })
        {
            Assert.That(scored.RootElement.GetProperty(part).GetRawText(), Is.EqualTo(ran.RootElement.GetProperty(part).GetRawText()), part);
        }

        foreach (string file in new[] { "truth.csv", "acquisition.csv" })
        {
            Assert.That(File.ReadAllBytes(At("rec", file)), Is.EqualTo(File.ReadAllBytes(At("run", file))), file);
        }

        Assert.That(File.ReadAllBytes(At("det", "detections.csv")), Is.EqualTo(File.ReadAllBytes(At("run", "detections.csv"))));
        JsonElement beats = ran.RootElement.GetProperty("scores")[0];
        Assert.That(beats.GetProperty("reference_count").GetInt64(), Is.GreaterThan(50), "there must be something to compare");
        Assert.That(beats.GetProperty("unusable_reference_count").GetInt64(), Is.GreaterThan(0));
    }

    [TestCaseSource(nameof(Knobs))]
    public void Record_OneKnobOfEverything_ChangesTheFilesOfItsChannelsOnly(string line, string changed, string[] channels)
    {
        Assert.That(Command.Run("record", AllOn("a.toml", "", ""), "--out", At("a")).Code, Is.Zero);
        Assert.That(Command.Run("record", AllOn("b.toml", line, changed), "--out", At("b")).Code, Is.Zero);
        Dictionary<string, byte[]> before = Contents(At("a"));
        Dictionary<string, byte[]> after = Contents(At("b"));
        Assert.That(after.Keys, Is.EquivalentTo(before.Keys));
        string[] differ = [.. before.Keys.Where(f => !before[f].AsSpan().SequenceEqual(after[f])).Order(StringComparer.Ordinal)];
        Assert.That(
            differ.Except(["acquisition.csv", "channels.csv"]), Is.EquivalentTo(channels.Select(c => c + ".csv")), string.Join(' ', differ));
    }

    // The log of a closed loop stands for the loop, to the last byte: also where channels tell in another order because blocks are shorter.
    [TestCase("light_level", "100")]
    [TestCase("light_level", "333")]
    [TestCase("sleep_when_still", "1717")]
    public void Run_ClosedLoopThenItsLog_GivesTheSame(string control, string latencyMs)
    {
        string scenario = AllOn("all.toml", "", "");
        Assert.That(
            Command.Run("run", scenario, "--closed-loop", "--control", control, "--latency-ms", latencyMs, "--out", At("closed")).Code, Is.Zero);
        Assert.That(Command.Run("run", scenario, "--settings", At("closed", "settings.csv"), "--out", At("open")).Code, Is.Zero);
        foreach (string file in new[] { "detections.csv", "truth.csv", "acquisition.csv" })
        {
            Assert.That(File.ReadAllBytes(At("open", file)), Is.EqualTo(File.ReadAllBytes(At("closed", file))), file);
        }

        using JsonDocument open = JsonDocument.Parse(File.ReadAllText(At("open", "scores.json")));
        using JsonDocument closed = JsonDocument.Parse(File.ReadAllText(At("closed", "scores.json")));
        Assert.That(open.RootElement.GetProperty("scores").GetRawText(), Is.EqualTo(closed.RootElement.GetProperty("scores").GetRawText()));
    }

    private static TestCaseData Case(string line, string changed, string[] channels) =>
        new TestCaseData(line, changed, channels).SetArgDisplayNames(changed.Replace('\n', ' '));

    // Two minutes of it, with one line of it changed; its files are named from the source tree.
    private string AllOn(string name, string line, string changed)
    {
        string text = File.ReadAllText(Path.Combine(Root, "waveforms", "scenarios", "all-on.toml"))
            .Replace("duration_s = 600", "duration_s = 120", StringComparison.Ordinal)
            .Replace("../noise/", Path.Combine(Root, "waveforms", "noise").Replace('\\', '/') + "/", StringComparison.Ordinal);
        if (line.Length > 0)
        {
            int at = text.IndexOf('\n' + line + '\n', StringComparison.Ordinal);
            Assert.That(at, Is.GreaterThan(0), $"the scenario has no line {line}");
            text = string.Concat(text.AsSpan(0, at + 1), changed, text.AsSpan(at + 1 + line.Length));
        }

        return Write(name, text);
    }
}
