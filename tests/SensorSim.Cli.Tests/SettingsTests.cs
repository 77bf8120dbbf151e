// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary>Settings that change: from a scenario, from a file, from a closed loop.</summary>
[TestFixture]
public sealed class SettingsTests : CommandTest
{
    private const string Nap = "[[setting]]\nat_s = 5\nchannel = [\"infrared\", \"accel_x\"]\nsetting = \"decimation\"\nvalue = 5\n";

    [Test]
    public void Run_ClosedLoopThenItsLog_GivesTheSameDetectionsAndScores()
    {
        // At rest: after ten still seconds the light is switched off.
        string scenario = Scenario(Nap + "[movement]\nactivity = \"rest\"\n", seconds: 30);
        Answer closed = Command.Run("run", scenario, "--closed-loop", "--control", "sleep_when_still", "--out", At("closed"));
        Assert.That(closed.Code, Is.Zero, closed.Error);
        string log = File.ReadAllText(At("closed", "settings.csv"));

        Assert.That(log, Is.EqualTo(
            "channel,setting,value,effective_ns\n"
            + "infrared,decimation,5.000,5000000000\naccel_x,decimation,5.000,5000000000\n"
            + "red,decimation,0.000,10200000000\ninfrared,decimation,0.000,10200000000\ndark,decimation,0.000,10200000000\n"));
        Assert.That(closed.Out, Does.Contain("closed loop: 3 requests, 5 changes took effect, 100 ms after the request; 0 moved, 0 clamped, 0 refused, 0 without room"));

        Answer open = Command.Run("run", scenario, "--settings", At("closed", "settings.csv"), "--out", At("open"));
        Assert.That(open.Code, Is.Zero, open.Error);
        Assert.That(File.ReadAllText(At("open", "detections.csv")), Is.EqualTo(File.ReadAllText(At("closed", "detections.csv"))));
        using JsonDocument scores = JsonDocument.Parse(File.ReadAllText(At("open", "scores.json")));
        using JsonDocument closedScores = JsonDocument.Parse(File.ReadAllText(At("closed", "scores.json")));
        Assert.That(scores.RootElement.GetProperty("scores").ToString(), Is.EqualTo(closedScores.RootElement.GetProperty("scores").ToString()));
        Assert.That(scores.RootElement.GetProperty("closed_loop").ValueKind, Is.EqualTo(JsonValueKind.Null));
        Assert.That(closedScores.RootElement.GetProperty("closed_loop").GetProperty("requests").GetInt32(), Is.EqualTo(3));
        JsonElement file = scores.RootElement.GetProperty("referenced_files")[0];
        Assert.That(file.GetProperty("sha256").GetString(), Is.EqualTo(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(At("closed", "settings.csv"))))));
        Assert.That(Directory.GetFiles(At("open")).Select(Path.GetFileName), Has.None.EqualTo("settings.csv"));
    }

    [Test]
    public void Record_WithSettings_KeepsWhatIsGivenAndReadsItBack()
    {
        string scenario = Scenario(Nap);
        Assert.That(Command.Run("record", scenario, "--out", At("own")).Code, Is.Zero);
        string file = Write("s.csv", "channel,setting,value,effective_ns\ninfrared,decimation,5,5000000000\naccel_x,decimation,5,5000000000\n");
        Assert.That(Command.Run("record", Scenario(), "--settings", file, "--out", At("file")).Code, Is.Zero);
        string[] rows = File.ReadAllLines(At("own", "infrared.csv"));

        // 500 samples at 100 Hz, then every fifth of the 700 that follow; the settings number 1 is 256 in the status.
        Assert.That(rows, Has.Length.EqualTo(1 + 500 + 140));
        Assert.That(rows[^1], Does.StartWith("1195,").And.EndsWith(",256"));
        Assert.That(Contents(At("file")), Is.EqualTo(Contents(At("own"))));
        Assert.That(Command.Run("detect", At("own")).Out, Does.Contain("r_peak"));
    }

    [TestCase("add --closed-loop", "--control", "light_level")]
    [TestCase("add --closed-loop", "--latency-ms", "200")]
    [TestCase("add --control light_level or --control sleep_when_still", "--closed-loop")]
    [TestCase("--latency-ms 99 must be a whole number from 100 to 60000", "--closed-loop", "--control", "light_level", "--latency-ms", "99")]
    [TestCase("nowhere.csv: there is no such file; give the path of a settings.csv.", "--settings", "nowhere.csv")]
    public void Run_OptionsThatDoNotFit_SayWhatIsRight(string right, params string[] options) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, ["run", Scenario(), .. options])[0], Does.Contain(right));
}
