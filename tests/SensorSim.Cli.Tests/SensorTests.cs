// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary><c>--sensor</c> and the sensor of a scenario: whose values hold, what is printed, what is stored.</summary>
[TestFixture]
public sealed class SensorTests : CommandTest
{
    private const string Slow = "[sensor]\ntitle = \"slow light\"\n[optics]\nrate_hz = 50\n";

    [Test]
    public void Run_ScenarioWithSensor_PrintsAndStoresIt()
    {
        Write("slow.toml", Slow);
        string scenario = Write("s.toml", "[scenario]\nduration_s = 12\nsensor = \"slow.toml\"\n");
        Answer answer = Command.Run("run", scenario, "--out", At("out"));
        using JsonDocument json = JsonDocument.Parse(File.ReadAllText(At("out", "scores.json")));

        Assert.That(answer.Out, Does.Contain("\nsensor: slow light\n"));
        Assert.That(json.RootElement.GetProperty("sensor").GetString(), Is.EqualTo("slow light"));
        JsonElement file = json.RootElement.GetProperty("referenced_files").EnumerateArray().Single();
        Assert.That(file.GetProperty("path").GetString(), Is.EqualTo("slow.toml"));
        Assert.That(file.GetProperty("sha256").GetString(), Has.Length.EqualTo(64));
    }

    [Test]
    public void Run_NoSensor_SaysNothingOfOne()
    {
        using JsonDocument json = JsonDocument.Parse(Command.Run("run", Scenario(), "--json").Out);

        Assert.That(json.RootElement.GetProperty("sensor").ValueKind, Is.EqualTo(JsonValueKind.Null));
        Assert.That(Command.Run("run", Scenario()).Out, Does.Not.Contain("sensor:"));
    }

    // Three ways to the same samples: named by the scenario, by the command line, and written out.
    [Test]
    public void Record_SensorOption_IsTheScenariosSensor()
    {
        string sensor = Write("slow.toml", Slow);
        Write("other.toml", "[optics]\nrate_hz = 200\n");
        string named = Write("named.toml", "[scenario]\nduration_s = 5\nsensor = \"slow.toml\"\n");
        string otherwise = Write("otherwise.toml", "[scenario]\nduration_s = 5\nsensor = \"other.toml\"\n");
        string written = Write("written.toml", "[scenario]\nduration_s = 5\n[optics]\nrate_hz = 50\n");
        Answer first = Command.Run("record", named, "--out", At("a"));
        Command.Run("record", otherwise, "--sensor", sensor, "--out", At("b"));
        Command.Run("record", written, "--out", At("c"));
        Command.Run("record", otherwise, "--out", At("d"));

        Assert.That(first.Out, Does.Contain("\nsensor: slow light\n"));
        foreach (string name in new[] { "channels.csv", "ecg.csv", "red.csv", "truth.csv", "acquisition.csv" })
        {
            Assert.That(File.ReadAllBytes(At("b", name)), Is.EqualTo(File.ReadAllBytes(At("a", name))), name);
            Assert.That(File.ReadAllBytes(At("c", name)), Is.EqualTo(File.ReadAllBytes(At("a", name))), name);
        }

        Assert.That(File.ReadAllBytes(At("d", "red.csv")), Is.Not.EqualTo(File.ReadAllBytes(At("a", "red.csv"))));
    }

    [Test]
    public void Run_WrongSensor_NamesFileLineAndColumn()
    {
        string sensor = Write("wrong.toml", "[optics]\nrate = 50\n");

        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--sensor", sensor),
            Is.EqualTo(new[] { $"{sensor}, line 2, column 1: optics.rate is no key; the nearest is optics.rate_hz" }));
        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--sensor", At("none.toml")),
            Is.EqualTo(new[] { $"{At("none.toml")}: there is no such file; give the path of a sensor (TOML)" }));
    }

    // 120.04 Hz in 100 Hz slots: 20.04 Hz; 2 |sin(π · 120.04 Hz · 500 µs)| = 37.49 % (textbook arithmetic).
    [Test]
    public void Explain_Scenario_SaysWhereLampsShow()
    {
        string scenario = Path.Combine(Root, "waveforms", "scenarios", "noisy-room.toml");
        Answer text = Command.Run("explain", scenario);
        using JsonDocument json = JsonDocument.Parse(Command.Run("explain", scenario, "--json").Out);
        JsonElement[] lines = [.. json.RootElement.GetProperty("ambient_lines").EnumerateArray()];

        Assert.That((text.Code, text.Error), Is.EqualTo((0, "")));
        Assert.That(text.Out, Does.Match(@"\n  flicker +120\.04 +20\.04 +119\.97[0-9]* +37\.489 +18\.828\n"));
        Assert.That(text.Out, Does.Match(@"\n  pulse width lamp, 3 times +1461\.9 +38\.1 "));
        Assert.That(lines, Has.Length.EqualTo(6));
        Assert.That(lines[0].GetProperty("source").GetString(), Is.EqualTo("flicker"));
        Assert.That(lines[0].GetProperty("frequency_hz").GetDouble(), Is.EqualTo(2 * 60.02).Within(1e-9));
        Assert.That(lines[0].GetProperty("alias_hz").GetDouble(), Is.EqualTo(20.04).Within(1e-9));
        JsonElement red = lines[0].GetProperty("dark_subtraction")[0];
        Assert.That(red.GetProperty("channel").GetString(), Is.EqualTo("red"));
        Assert.That(red.GetProperty("left_percent").GetDouble(), Is.EqualTo(200 * Math.Abs(Math.Sin(Math.PI * 120.04 * 500e-6))).Within(1e-9));
    }

    [Test]
    public void Explain_ScenarioInAnotherCulture_WritesPoints()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            Assert.That(Command.Run("explain", Scenario()).Out, Does.Contain(" 100.06 ").And.Not.Contain("100,06"));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Test]
    public void Explain_ScenarioWithMistakes_IsRefused()
    {
        string path = Write("bad.toml", "[optic]\n");

        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "explain", path),
            Is.EqualTo(new[] { $"{path}, line 1, column 2: [optic] is no section; the nearest is [optics]" }));
        Assert.That(Command.Refused(ExitCodes.WrongInput, "explain", At("none.toml"))[0], Does.Contain("no such file"));
    }
}
