// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Cli.Tests;

[TestFixture]
public sealed class ChallengeTests : CommandTest
{
    // Sharp electrode motion like a QRS complex is what the library takes for beats.
    private const string Strict = "[requirements]\nr_peak_positive_predictivity_min = 0.98\n";

    private string[] Args(string scenario, string folder, params string[] more) =>
        ["challenge", scenario, "--knobs", "ecg_noise.sharp_motion_uv_rms,ecg_noise.muscle_uv_rms", "--runs", "60", "--check-seeds", "2", "--out", At(folder), .. more];

    [Test]
    public void Challenge_Twice_WritesTheSameBytes()
    {
        string scenario = Scenario(Strict, 30);
        Answer first = Command.Run(Args(scenario, "one"));
        Answer second = Command.Run(Args(scenario, "two"));
        Dictionary<string, byte[]> one = Contents(At("one"));

        Assert.That(first.Code, Is.EqualTo(ExitCodes.NotMet), first.Error);
        Assert.That(second.Out, Is.EqualTo(first.Out));
        Assert.That(Contents(At("two")), Is.EqualTo(one));
        Assert.That(one.Keys, Is.EquivalentTo(new[] { "challenge.toml", "challenge.json", "moment.txt", "signals.png", "signals.svg" }));
    }

    [Test]
    public void Challenge_Found_IsMadeAgainByRun()
    {
        Command.Run(Args(Scenario(Strict, 30), "out"));
        using JsonDocument found = JsonDocument.Parse(File.ReadAllText(At("out", "challenge.json")));
        Answer run = Command.Run("run", At("out", "challenge.toml"), "--json");
        using JsonDocument ran = JsonDocument.Parse(run.Out);

        Assert.That(run.Code, Is.EqualTo(ExitCodes.NotMet));
        JsonElement requirement = ran.RootElement.GetProperty("requirements").EnumerateArray().Single();
        Assert.That(found.RootElement.GetProperty("found").GetProperty("figure").GetDouble(), Is.LessThan(0.98));
        Assert.That(requirement.GetRawText(), Does.Contain(found.RootElement.GetProperty("found").GetProperty("figure").GetRawText()));
        Assert.That(File.ReadAllText(At("out", "moment.txt")), Does.Match("^at [0-9]+\\.[0-9]{3} s \\(body time\\): ecg r_peak given where there is none\n$"));
        Assert.That(File.ReadAllText(At("out", "challenge.toml")), Does.StartWith("# The mildest input found").And.Contain("\n# requirements.r_peak_positive_predictivity_min = 0.98 is broken: ecg r_peak reaches "));
    }

    [Test]
    public void Challenge_NothingBreaks_EndsWithZeroAndSaysWhatWasTried()
    {
        Answer answer = Command.Run("challenge", Scenario(Strict, 20), "--knobs", "ambient.level_lux", "--runs", "20", "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error);
        Assert.That(answer.Out, Does.StartWith("Nothing broke in ").And.Contain("the harshest that held (1): ambient.level_lux = 5000 lux"));
        Assert.That(Contents(At("out")).Keys, Is.EqualTo(new[] { "challenge.json" }));
    }

    [Test]
    public void Challenge_Json_IsTheFile()
    {
        Answer answer = Command.Run(Args(Scenario(Strict, 20), "out", "--json"));

        Assert.That(answer.Out, Is.EqualTo(File.ReadAllText(At("out", "challenge.json"))));
    }

    [TestCase("ambient.daylight", "--knobs: \"ambient.daylight\" is no disturbance that can be searched; the nearest is \"ambient.daylight_lux\"")]
    [TestCase(" , ", "--knobs names nothing; give sections or keys parted by commas, for example --knobs ecg_noise,ambient.daylight_lux")]
    public void Challenge_WrongKnobs_IsRefused(string knobs, string message) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "challenge", Scenario(Strict), "--knobs", knobs, "--out", At("out")), Is.EqualTo(new[] { message }));

    [Test]
    public void Challenge_MoreChecksThanSeeds_IsRefused() => Assert.That(
        Command.Refused(ExitCodes.WrongInput, "challenge", Scenario(Strict), "--check-seeds", "2", "--check-least", "3"),
        Is.EqualTo(new[] { "--check-least 3 is more than the 2 seeds of --check-seeds; at most 2" }));

    [Test]
    public void Challenge_NothingRequired_IsRefusedAndLeavesNothing()
    {
        string scenario = Scenario();
        string[] messages = Command.Refused(ExitCodes.WrongInput, "challenge", scenario, "--out", At("out"));

        Assert.That(messages, Has.Length.EqualTo(1).And.All.Contains("set a requirement below [requirements]"));
        Assert.That(Everything(), Is.EqualTo(new[] { "s.toml" }));
    }

    [Test]
    public void Challenge_Interrupted_LeavesNothing()
    {
        string scenario = Scenario(Strict);
        Answer answer = Command.Run(new CancellationToken(canceled: true), "challenge", scenario, "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Interrupted));
        Assert.That(Everything(), Is.EqualTo(new[] { "s.toml" }));
    }
}
