// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Writing;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Challenges;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Challenges;

/// <summary>
/// Detectors with a weakness that is known: the challenge must find it, say nothing else, and say where it begins. The levels are computed
/// from the weakness and the definition of the key, not from a run.
/// </summary>
[TestFixture]
public sealed class PlantedWeaknessTests
{
    private const string Calm = """
        [scenario]
        title = "calm"
        duration_s = 40
        seed = 5

        [heart]
        respiratory_variability_ms = 0
        slow_variability_ms = 0

        [requirements]

        """;

    private const string Peaks = Calm + "r_peak_sensitivity_min = 0.9\n";
    private const string Feet = Calm + "pulse_foot_tangent_sensitivity_min = 0.9\n";

    [Test]
    public void Search_DeafBeyondHalfAMillivolt_FindsTheBaselineThere()
    {
        ChallengeResult result = Search(Peaks, () => new DeafBeyondLevel(MarkKind.RPeak, -0.5, 0.5), Knobs.Named(["ecg_amplifier", "ecg_noise", "heart"]));

        // The mean of a sine of 15 a minute over a second is 0.9 of it (sin(π/4)/(π/4)); the waves themselves add some 0.05 mV. A tenth of the
        // beats lie beyond 0.5 mV from an amplitude of about 0.5 mV on.
        Assert.That(Keys(result), Is.EqualTo(new[] { "ecg_amplifier.breathing_baseline_mv" }));
        Assert.That(result.Found!.Breach!.Requirement, Is.EqualTo("requirements.r_peak_sensitivity_min"));
        Assert.That(result.Found.Input.Disturbances[0].Value, Is.InRange(0.45, 0.6));
        ExpectMinimal(result, () => new DeafBeyondLevel(MarkKind.RPeak, -0.5, 0.5));
    }

    [Test]
    public void Search_FeetLostInBrightLight_FindsTheLightThere()
    {
        // Infrared light has 2000 nA, less half of a pulse of 2 %; daylight adds 0.7 nA a lux: a mean of 2100 nA is reached at 171 lux, breath by breath a little sooner.
        ChallengeResult result = Search(Feet, () => new DeafBeyondLevel(MarkKind.PulseFootTangent, -1e9, 2100), Knobs.All);

        Assert.That(Keys(result), Is.EqualTo(new[] { "ambient.daylight_lux" }));
        Assert.That(result.Found!.Breach!.Requirement, Is.EqualTo("requirements.pulse_foot_tangent_sensitivity_min"));
        Assert.That(result.Found.Input.Disturbances[0].Value, Is.InRange(150, 180));
        ExpectMinimal(result, () => new DeafBeyondLevel(MarkKind.PulseFootTangent, -1e9, 2100));
    }

    [Test]
    public void Search_BlindToFastHearts_FindsTheRateThere()
    {
        ChallengeResult result = Search(Peaks, () => new TooSlowForFastHearts(450), Knobs.Named(["heart.rate_bpm", "ecg_amplifier.white_noise_uv_rms", "ambient"]));

        // 60 / 0.45 s = 133.3 bpm, in steps of a whole one, without variability.
        Assert.That(Keys(result), Is.EqualTo(new[] { "heart.rate_bpm" }));
        Assert.That(result.Found!.Input.Disturbances[0].Value, Is.InRange(133, 135));
        ExpectMinimal(result, () => new TooSlowForFastHearts(450));
    }

    [Test]
    public void Search_BlindToBriskHeartsWithEveryKnob_FindsNothingElse()
    {
        ChallengeResult result = Search(Peaks, () => new TooSlowForFastHearts(800), Knobs.All);

        // 60 / 0.8 s = 75 bpm: milder than anything that the library itself minds.
        Assert.That(Keys(result), Is.EqualTo(new[] { "heart.rate_bpm" }));
        Assert.That(result.Found!.Input.Disturbances[0].Value, Is.InRange(75, 77));
        ExpectMinimal(result, () => new TooSlowForFastHearts(800));
    }

    [Test]
    public void Search_TwoThatOnlyBreakTogether_FindsBoth()
    {
        // Daylight to 1000 lux adds up to 700 nA, room light to 2000 lux up to 400 nA: only together they lift 2000 nA beyond 2900 nA.
        Knob[] knobs =
        [
            Knobs.Named(["ambient.daylight_lux"])[0] with { Harsh = 1000 },
            Knobs.Named(["ambient.level_lux"])[0] with { Harsh = 2000 },
        ];
        ChallengeResult result = Search(Feet, () => new DeafBeyondLevel(MarkKind.PulseFootTangent, -1e9, 2900), knobs);

        // All of the room light and 715 lux of daylight, a level of lg 7.2; or all of the daylight and 1000 lux of the room, lg 100 / lg 200.
        Assert.That(result.Alone, Has.All.Null);
        Assert.That(Keys(result), Is.EquivalentTo(new[] { "ambient.level_lux", "ambient.daylight_lux" }));
        Assert.That(result.Found!.Input.Harshness, Is.InRange(1.84, 1.9));
        ExpectMinimal(result, () => new DeafBeyondLevel(MarkKind.PulseFootTangent, -1e9, 2900));
    }

    [Test]
    public void Search_Result_IsReproducedByItsText()
    {
        ChallengeResult result = Search(Peaks, () => new TooSlowForFastHearts(450), Knobs.Named(["heart.rate_bpm"]));
        Scenario again = ScenarioReader.ReadText(ChallengeText.Scenario(result, "."), "challenge.toml");
        using var detector = new TooSlowForFastHearts(450);
        RunOutcome outcome = Runs.Run(again, detector);
        RequirementResult judged = RequirementResult.Judge(again.Requirements, outcome.Report!).First(r => !r.IsMet);

        Assert.That(judged.Definition.Key.Name, Is.EqualTo(result.Found!.Breach!.Requirement));
        Assert.That(judged.Actual, Is.EqualTo(result.Found.Breach.Figure));
        Assert.That(result.Moment!.What, Does.Contain("ecg r_peak missed"));
        Assert.That(result.Moment.TimeS, Is.InRange(8, again.DurationS - 1));
        Assert.That(result.Around!.BeginSeconds, Is.LessThan(result.Moment.TimeS));
        Assert.That(result.Around.EndSeconds, Is.GreaterThan(result.Moment.TimeS));
    }

    private static ChallengeResult Search(string scenario, Func<WeakDetector> make, IReadOnlyList<Knob> knobs)
    {
        using var factory = new WeakDetector.Factory(make);
        ChallengeResult result = Challenge.Search(
            ScenarioReader.ReadText(scenario, "calm.toml"), factory, new ChallengeSettings { MostRuns = 700, Knobs = knobs, CheckSeeds = 2, CheckLeast = 2 });
        TestContext.Out.WriteLine(string.Join('\n', ChallengeText.Sentences(result)));
        return result;
    }

    private static string[] Keys(ChallengeResult result) =>
        result.Found is null ? [] : [.. result.Found.Input.Disturbances.Select(d => result.Found.Input.RangeOf(d).Knob.Key.Name)];

    // Judged by runs of the test's own, at the full length: what was found breaks, and nothing that is a step less does.
    private static void ExpectMinimal(ChallengeResult result, Func<WeakDetector> make)
    {
        ChallengeInput found = result.AtFullLength!.Input;
        Assert.That(Breaks(found), Is.True, "what was found");
        for (int i = 0; i < found.Disturbances.Count; i++)
        {
            Disturbance own = found.Disturbances[i];
            Assert.That(Breaks(found.Without(i)), Is.False, $"without {found.RangeOf(own).Knob.Name}");
            Assert.That(Breaks(found.With(i, found.RangeOf(own).Milder(own.Value))), Is.False, $"a step less of {found.RangeOf(own).Knob.Name}");
        }

        bool Breaks(ChallengeInput input)
        {
            Scenario scenario = input.On(result.Scenario);
            return new ulong[] { 0, 1, 2 }.All(more =>
            {
                Scenario seeded = scenario.WithSeed(scenario.Seed + more);
                using WeakDetector detector = make();
                RunOutcome outcome = Runs.Run(seeded, detector);
                return RequirementResult.Judge(seeded.Requirements, outcome.Report!)
                    .Any(r => !r.IsMet && r.Definition.Key.Name == result.Found!.Breach!.Requirement);
            });
        }
    }
}
