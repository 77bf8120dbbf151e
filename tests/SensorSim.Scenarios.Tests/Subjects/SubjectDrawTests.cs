// SPDX-License-Identifier: MIT
using SensorSim.Body.Rhythm;
using SensorSim.Body.Subject;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Subjects;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Tests.Subjects;

/// <summary>How a person is drawn: by seed alone, and only where the scenario says nothing.</summary>
[TestFixture]
public sealed class SubjectDrawTests
{
    private static readonly string[] s_drawn =
    [
        "subject.age_years", "subject.sex", "subject.height_m", "subject.skin_tone", "heart.rate_bpm", "heart.respiratory_variability_ms",
        "heart.slow_variability_ms", "pulse.perfusion_index_percent", "pressure.diastolic_mmhg", "pressure.pulse_pressure_mmhg",
        "artery.elastic_modulus_kpa", "pulse.stiffness_index_m_per_s", "pulse.reflection_index_percent", "ejection.pep_ms", "arrival.from",
    ];

    [Test]
    public void Draw_Person_HasEveryKey()
    {
        string[] keys = [.. Draw(7).Subject!.Values.Select(v => v.Key.Name)];

        Assert.That(keys, Is.Unique);
        Assert.That(keys, Is.EquivalentTo(s_drawn));
    }

    // Pinned: the same person on every machine. Drawn by this program itself, so it guards against change, not against a wrong law.
    [Test]
    public void Draw_SeedSeven_IsThisPerson()
    {
        Dictionary<string, string> values = Draw(7).Subject!.Values.ToDictionary(v => v.Key.Name, v => v.Text);

        Assert.That(
            s_drawn.Select(k => values[k]), Is.EqualTo(new[] { "38", "female", "1.6", "3", "70.4", "10.7", "32.7", "0.82", "65.3", "25.9", "103", "7.24", "65.1", "104", "pressure" }));
    }

    [Test]
    public void Draw_SeedInScenario_IsTheSamePersonAsByTheCaller()
    {
        Scenario own = ScenarioReader.ReadText("[subject]\nseed = 7\n", "a.toml");

        Assert.That(own.Subject!.Seed, Is.EqualTo(7UL));
        Assert.That(own.Subject.Values, Is.EqualTo(Draw(7).Subject!.Values));
        Assert.That(own.WithSubject(8).Subject!.Values, Is.EqualTo(Draw(8).Subject!.Values), "the caller's seed replaces the scenario's");
        Assert.That(own.WithSeed(3).Subject, Is.SameAs(own.Subject));
    }

    [Test]
    public void Draw_Nobody_LeavesTheDefaults()
    {
        Scenario scenario = ScenarioReader.ReadText("", "a.toml");

        Assert.That(scenario.Subject, Is.Null);
        Assert.That(AllKeys.List().Where(scenario.Values.IsSet), Is.Empty);
        _ = scenario.WithSubject(7);
        Assert.That(AllKeys.List().Where(scenario.Values.IsSet), Is.Empty, "a person for another scenario leaves this one alone");
    }

    [Test]
    public void Draw_KeysOfTheScenario_AreKeptAndNotDrawn()
    {
        const string Own = "[subject]\nage_years = 80\nsex = \"male\"\n[heart]\nrate_bpm = 50\n";
        Scenario scenario = ScenarioReader.ReadText(Own, "a.toml").WithSubject(7);

        Assert.That((scenario.Values[SubjectKeys.AgeYears], scenario.Values[SubjectKeys.Sex], scenario.Values[HeartKeys.RateBpm]), Is.EqualTo((80, "male", 50)));
        Assert.That(
            scenario.Subject!.Values.Select(v => v.Key.Name).Intersect(new[] { "subject.age_years", "subject.sex", "heart.rate_bpm" }), Is.Empty);
    }

    // One key set by hand moves only what depends on it: skin tone stays, variability follows the age.
    [Test]
    public void Draw_AgeSetByHand_MovesOnlyWhatDependsOnIt()
    {
        KeyValues young = ScenarioReader.ReadText("[subject]\nage_years = 20\n", "a").WithSubject(7).Values;
        KeyValues old = ScenarioReader.ReadText("[subject]\nage_years = 79\n", "a").WithSubject(7).Values;

        Assert.That(old[SubjectKeys.SkinTone], Is.EqualTo(young[SubjectKeys.SkinTone]));
        Assert.That(old[SubjectKeys.HeightM], Is.EqualTo(young[SubjectKeys.HeightM]));
        Assert.That(old[HeartKeys.RateBpm], Is.EqualTo(young[HeartKeys.RateBpm]));

        // ln HF falls by 0.039 a year (Choi et al. 2020): the standard deviation by exp(-0.0195 x 59).
        Assert.That(
            old[HeartKeys.RespiratoryVariabilityMs] / young[HeartKeys.RespiratoryVariabilityMs],
            Is.EqualTo(Math.Exp(-0.0195 * 59)).Within(0.01));
    }

    [Test]
    public void Draw_ManyPeople_AreAllPossible()
    {
        for (ulong seed = 0; seed < 500; seed++)
        {
            Scenario scenario = ScenarioReader.ReadText("[subject]\nseed = " + seed + "\n[[activity]]\nat_s = 5\nname = \"running\"\nintensity = 1\n", "a");
            Assert.That(scenario.Subject, Is.Not.Null);
        }
    }

    [Test]
    public void Draw_ContradictsTheScenario_SaysSo()
    {
        // Variability is lowered to what a fast rate of the scenario leaves room for.
        Assert.That(() => ScenarioReader.ReadText("[subject]\nseed = 7\n[heart]\nrate_bpm = 190\n", "a"), Throws.Nothing);

        var e = Assert.Throws<ScenarioException>(() => ScenarioReader.ReadText(
            "[subject]\nseed = 7\n[heart]\nslow_variability_ms = 0\n[ecg]\nqtc_ms = 300\n[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 5\nstep_to = 240\n", "a.toml"));
        Assert.That(e!.Message, Does.Contain("a.toml, line 10, column 11: RR variability of 11 ms in all is too much at 240 bpm"));
    }

    [Test]
    public void Draw_SeedAsText_IsRefusedLikeAnyValue() => Assert.That(
        () => ScenarioReader.ReadText("[subject]\nseed = \"me\"\n", "a.toml"),
        Throws.TypeOf<ScenarioException>().With.Message.StartsWith("a.toml, line 2, column 8: subject.seed = \"me\" must be a whole number"));

    private static Scenario Draw(ulong seed) => ScenarioReader.ReadText("", "a.toml").WithSubject(seed);
}
