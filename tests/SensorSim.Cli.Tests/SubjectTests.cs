// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary><c>--subject-seed</c>: draws a person, says whom, stores it; the same person each time.</summary>
[TestFixture]
public sealed class SubjectTests : CommandTest
{
    [Test]
    public void Run_SubjectSeed_PrintsAndStoresThePerson()
    {
        string scenario = Scenario("[heart]\nrate_bpm = 61\n");
        Answer answer = Command.Run("run", scenario, "--subject-seed", "7", "--out", At("out"));
        using JsonDocument json = JsonDocument.Parse(File.ReadAllText(At("out", "scores.json")));
        JsonElement subject = json.RootElement.GetProperty("subject");
        JsonElement[] values = [.. subject.GetProperty("values").EnumerateArray()];

        Assert.That(subject.GetProperty("seed").GetInt64(), Is.EqualTo(7));
        Assert.That(values.Select(v => v.GetProperty("key").GetString()), Does.Contain("subject.age_years").And.Contain("subject.sex").And.None.EqualTo("heart.rate_bpm"));
        Assert.That(answer.Out, Does.Contain("\nsubject of seed 7:\n"));
        foreach (JsonElement value in values)
        {
            Assert.That(
                answer.Out,
                Does.Match($"\n  {value.GetProperty("key").GetString()} +{value.GetProperty("value")} ?{value.GetProperty("unit").GetString()}\n"));
        }
    }

    [Test]
    public void Run_NoSubjectSeed_SaysNothingOfAPerson()
    {
        Answer answer = Command.Run("run", Scenario(), "--json");
        using JsonDocument json = JsonDocument.Parse(answer.Out);

        Assert.That(json.RootElement.GetProperty("subject").ValueKind, Is.EqualTo(JsonValueKind.Null));
        Assert.That(json.RootElement.GetProperty("referenced_files").GetArrayLength(), Is.Zero);
        Assert.That(Command.Run("run", Scenario()).Out, Does.Not.Contain("subject"));
    }

    // Three ways to the same person, and the samples follow; another seed is another person.
    [Test]
    public void Record_SubjectSeed_IsTheScenariosSubjectSeed()
    {
        string scenario = Scenario();
        string own = Write("own.toml", File.ReadAllText(scenario) + "[subject]\nseed = 7\n");
        Answer first = Command.Run("record", scenario, "--out", At("a"), "--subject-seed", "7", "--json");
        Command.Run("record", own, "--out", At("b"));
        Command.Run("record", own, "--out", At("c"), "--subject-seed", "8");
        Command.Run("record", scenario, "--out", At("d"));

        foreach (string name in new[] { "subject.json", "ecg.csv", "truth.csv" })
        {
            Assert.That(File.ReadAllBytes(At("b", name)), Is.EqualTo(File.ReadAllBytes(At("a", name))), name);
            Assert.That(File.ReadAllBytes(At("c", name)), Is.Not.EqualTo(File.ReadAllBytes(At("a", name))), name);
        }

        Assert.That(File.Exists(At("d", "subject.json")), Is.False);
        using JsonDocument stored = JsonDocument.Parse(File.ReadAllText(At("a", "subject.json")));
        using JsonDocument printed = JsonDocument.Parse(first.Out);
        Assert.That(
            printed.RootElement.GetProperty("subject").GetProperty("values").GetRawText().Replace("\n  ", "\n", StringComparison.Ordinal),
            Is.EqualTo(stored.RootElement.GetProperty("values").GetRawText()));
        Assert.That(Command.Run("record", own, "--out", At("e")).Out, Does.Contain("subject of seed 7:\n  subject.age_years "));
    }

    [TestCase("-1")]
    [TestCase("1.5")]
    [TestCase("me")]
    public void Run_BadSubjectSeed_IsRefused(string value) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--subject-seed", value)[0], Does.StartWith("--subject-seed"));

    // The drawn person cannot change so: the scenario's own seed has the place, the command line has none.
    [Test]
    public void Run_PersonContradictsTheScenario_SaysSo()
    {
        string scenario = Scenario("[heart]\nslow_variability_ms = 0\n[ecg]\nqtc_ms = 300\n[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 5\nstep_to = 240\n[[change]]\nkey = \"heart.respiratory_variability_ms\"\nat_s = 5\nstep_to = 4\n");

        Assert.That(Command.Refused(ExitCodes.WrongInput, "run", scenario, "--subject-seed", "7"), Has.Some.Contains("RR variability of 4 ms in all is too much at 240 bpm, reached at 5 s"));
    }

    [Test]
    public void Run_TimeLine_CountsItsTables() => Assert.That(
        Command.Run("run", Scenario("[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 5\nstep_to = 80\n[[activity]]\nat_s = 9\nname = \"standing\"\n")).Out,
        Does.Contain("\ntime line: activities 1, changes 1\n"));
}
