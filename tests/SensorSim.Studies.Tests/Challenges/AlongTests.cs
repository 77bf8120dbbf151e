// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Challenges;

namespace SensorSim.Studies.Tests.Challenges;

/// <summary>What a knob brings along is told wherever the find is, and goes when the find does not need it.</summary>
[TestFixture]
public sealed class AlongTests
{
    // Flicker of the room's light brings 500 lux along, which here lift infrared light by 0.2 nA a lux.
    private static readonly Knob s_flicker = Knobs.Named(["ambient.flicker_percent"])[0];

    [Test]
    public void Search_FindThatNeedsWhatComesAlong_TellsItEverywhere()
    {
        // Infrared light is 1980 nA and less; the 500 lux add some 100 nA. Only with them is the mean beyond 2040 nA.
        ChallengeResult result = Search(() => new DeafBeyondLevel(MarkKind.PulseFootTangent, -1e9, 2040), s_flicker);

        Assert.That(result.Found!.Input.AlongWith(result.Found.Input.Disturbances[0], result.Scenario).Select(a => $"{a.Key.Name} {a.Text}"), Is.EqualTo(new[] { "ambient.level_lux 500" }));
        Assert.That(ChallengeText.Sentences(result), Has.Some.Contains("ambient.flicker_percent = ").And.Some.Contains(", along with ambient.level_lux = 500."));
        Assert.That(ChallengeText.Scenario(result, "."), Does.Contain(", along with ambient.level_lux = 500.").And.Contain("level_lux = 500\n"));
        Assert.That(Json(result), Does.Contain("\"ambient.level_lux = 500\""));
    }

    [Test]
    public void Search_FindThatDoesNotNeedIt_LeavesItOut()
    {
        // The rate breaks it; the light that this knob brings along has nothing to do with it.
        Knob rate = Knobs.Named(["heart.rate_bpm:fast"])[0] with { Along = s_flicker.Along };
        ChallengeResult result = Search(() => new TooSlowForFastHearts(450), rate, "r_peak_sensitivity_min = 0.9\n");

        Assert.That(result.Found!.Input.Disturbances.Single().Value, Is.InRange(133, 135));
        Assert.That(result.Found.Input.AlongWith(result.Found.Input.Disturbances[0], result.Scenario), Is.Empty);
        Assert.That(ChallengeText.Scenario(result, "."), Does.Not.Contain("level_lux"));
        Assert.That(result.Broken!.Own.Select(o => o.Key.Name), Has.No.Member("ambient.level_lux"));
    }

    [Test]
    public void Search_Found_IsToldOfEveryCheckSeed()
    {
        using var factory = new WeakDetector.Factory(() => new TooSlowForFastHearts(450));
        ChallengeResult result = Challenge.Search(
            ScenarioReader.ReadText(Calm + "r_peak_sensitivity_min = 0.9\n", "calm.toml"),
            factory,
            new ChallengeSettings { MostRuns = 60, Knobs = Knobs.Named(["heart.rate_bpm:fast"]), CheckSeeds = 4, CheckLeast = 2 });

        // The heart beats evenly, so every seed fails alike; the search itself needs two only.
        Assert.That((result.Found!.CheckBroken, result.Found.CheckRuns), Is.EqualTo((4, 4)));
        Assert.That((result.AtFullLength!.CheckBroken, result.AtFullLength.CheckRuns), Is.EqualTo((4, 4)));
        Assert.That(ChallengeText.Sentences(result)[1], Is.EqualTo("So it does on 4 of 4 further seeds."));
    }

    private const string Calm = "[scenario]\nduration_s = 30\nseed = 5\n\n[heart]\nrespiratory_variability_ms = 0\nslow_variability_ms = 0\n\n[requirements]\n";

    private static ChallengeResult Search(Func<WeakDetector> make, Knob knob, string requirements = "pulse_foot_tangent_sensitivity_min = 0.9\n")
    {
        using var factory = new WeakDetector.Factory(make);
        return Challenge.Search(
            ScenarioReader.ReadText(Calm + requirements, "calm.toml"),
            factory,
            new ChallengeSettings { MostRuns = 60, Knobs = [knob], CheckSeeds = 2, CheckLeast = 2 });
    }

    private static string Json(ChallengeResult result)
    {
        using var stream = new MemoryStream();
        ChallengeJson.Write(stream, result);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
