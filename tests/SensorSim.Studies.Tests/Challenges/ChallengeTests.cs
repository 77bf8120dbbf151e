// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Challenges;
using SensorSim.Studies.Tests.Detectors;

namespace SensorSim.Studies.Tests.Challenges;

[TestFixture]
public sealed class ChallengeTests
{
    private const string Strict = """
        [scenario]
        duration_s = 30
        seed = 2

        [requirements]
        r_peak_sensitivity_min = 0.95
        r_peak_positive_predictivity_min = 0.95
        """;

    private static readonly ChallengeSettings s_few = new() { MostRuns = 150, Knobs = Knobs.Named(["ecg_noise", "heart"]), CheckSeeds = 2, CheckLeast = 1 };

    [Test]
    public void Search_OneWorkerOrMany_GivesTheSameBytes()
    {
        string one = Json(Search(Strict, s_few with { Workers = 1 }));

        Assert.That(Json(Search(Strict, s_few with { Workers = 7 })), Is.EqualTo(one));
        Assert.That(one, Does.Contain("\"is_broken\": true"), "a search that finds nothing would prove nothing");
    }

    [Test]
    public void Search_AnotherSearchSeed_TriesOtherInputs()
    {
        // A detector that breaks nothing: all that differs is which combinations are tried.
        ChallengeSettings settings = s_few with { Knobs = Knobs.Named(["ambient"]), MostRuns = 100 };
        ChallengeResult one = Search(Strict, settings);
        ChallengeResult two = Search(Strict, settings with { Seed = 2 });

        Assert.That(one.HarshestHeld!.Harshness, Is.Not.EqualTo(two.HarshestHeld!.Harshness));
    }

    [Test]
    public void Search_NothingThatMatters_BreaksNothingAndSaysWhatWasTried()
    {
        ChallengeResult result = Search(Strict, s_few with { Knobs = Knobs.Named(["ambient"]), MostRuns = 100 });

        Assert.That(result.Found, Is.Null);
        Assert.That(result.RunCount, Is.InRange(100, 130), "the ECG sees no light, however long one searches");
        Assert.That(result.HarshestHeld!.Harshness, Is.GreaterThanOrEqualTo(1));
        Assert.That(ChallengeText.Sentences(result), Has.Count.EqualTo(1).And.All.StartsWith($"Nothing broke in {result.RunCount} runs"));
    }

    [Test]
    public void Search_ScenarioThatBreaksByItself_SaysSo()
    {
        ChallengeResult result = Search(Strict.Replace("seed = 2", "seed = 2\n\n[ecg_noise]\nmuscle_uv_rms = 1000", StringComparison.Ordinal), s_few);

        Assert.That(result.Found!.Input.Disturbances, Is.Empty);
        Assert.That(result.Found.Input.Harshness, Is.Zero);
        Assert.That(result.Found.Input.DurationS, Is.EqualTo(30));
        Assert.That(ChallengeText.Sentences(result)[^1], Is.EqualTo("The scenario itself breaks it; nothing was turned up."));
    }

    [Test]
    public void Search_NothingRequired_IsRefused() => Assert.That(
        () => Search("[scenario]\nduration_s = 30\n", s_few),
        Throws.TypeOf<NotSupportedException>().With.Message.Contains("set a requirement below [requirements]"));

    [Test]
    public void Search_KnobThatTheScenarioChanges_IsLeftAlone() => Assert.That(
        () => Search(
            Strict + "\n\n[[change]]\nkey = \"ecg_noise.muscle_uv_rms\"\nat_s = 5\nstep_to = 3\n",
            s_few with { Knobs = Knobs.Named(["ecg_noise.muscle_uv_rms"]) }),
        Throws.TypeOf<NotSupportedException>().With.Message.Contains("no knob is left"));

    [Test]
    public void Search_RateWithoutRoomForItsVariability_CountsTheContradiction()
    {
        // At 180 bpm the RR interval of 333 ms leaves no room for a standard deviation of 120 ms.
        ChallengeResult result = Search(
            Strict, s_few with { Knobs = Knobs.Named(["heart.rate_bpm:fast", "heart.respiratory_variability_ms", "heart.slow_variability_ms"]) });

        Assert.That(result.ContradictionCount, Is.GreaterThan(0));
        Assert.That(result.InputCount, Is.GreaterThan(result.ContradictionCount));
    }

    [Test]
    public void Search_SilentDetector_BreaksWithoutAnyDisturbance()
    {
        using var factory = new Of(() => new TestDetector());
        ChallengeResult result = Challenge.Search(ScenarioReader.ReadText(Strict, "s.toml"), factory, s_few);

        Assert.That(result.Found!.Breach!.Requirement, Is.EqualTo(Breach.Answers));
        Assert.That(result.Moment!.What, Does.StartWith("The detector gave no mark at all.").And.Contain("missed"));
    }

    [Test]
    public void Search_FlukeOfOneSeed_IsNotTaken()
    {
        // So irregular that the beats of one seed are nothing like those of another.
        Scenario scenario = ScenarioReader.ReadText(
            Strict.Replace("seed = 2", "seed = 2\n\n[heart]\nrhythm = \"atrial_fibrillation\"", StringComparison.Ordinal), "s.toml");
        using var factory = new Of(() => new KnowingDetector(scenario));
        ChallengeSettings settings = s_few with { Knobs = Knobs.Named(["ambient.level_lux"]), MostRuns = 30, CheckSeeds = 3, CheckLeast = 3 };
        ChallengeResult knowing = Challenge.Search(scenario.WithSeed(3), factory, settings);
        ChallengeResult own = Challenge.Search(scenario, factory, settings);

        // It knows the beats of seed 2 only: wrong on seed 3 and all after it; right on seed 2, whatever happens on the others.
        Assert.That(knowing.Found!.Input.Disturbances, Is.Empty);
        Assert.That(own.Found, Is.Null);

        ChallengeResult before = Challenge.Search(scenario.WithSeed(1), factory, settings);
        Assert.That(before.Found, Is.Null, "wrong on seed 1, but right on seed 2, one of the three that must fail too");
    }

    private static ChallengeResult Search(string text, ChallengeSettings settings)
    {
        using var factory = new LibraryFactory();
        return Challenge.Search(ScenarioReader.ReadText(text, "s.toml"), factory, settings);
    }

    private static string Json(ChallengeResult result)
    {
        using var stream = new MemoryStream();
        ChallengeJson.Write(stream, result);
        return Encoding.UTF8.GetString(stream.ToArray()) + (result.Found is null ? "" : ChallengeText.Scenario(result, ".") + ChallengeText.Moment(result));
    }

    private sealed class Of(Func<IDetector> make) : IDetectorFactory
    {
        public string Identity => "test 1.0";

        public IReadOnlyList<NumberKey> Constants => [];

        public IDetector Create(IReadOnlyDictionary<string, double> constants) => make();

        public void Dispose()
        {
            // Nothing is held.
        }
    }
}
