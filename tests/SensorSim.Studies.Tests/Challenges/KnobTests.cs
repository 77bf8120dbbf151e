// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Studies.Challenges;

namespace SensorSim.Studies.Tests.Challenges;

[TestFixture]
public sealed class KnobTests
{
    private static IEnumerable<Knob> All => Knobs.All;

    [TestCaseSource(nameof(All))]
    public void Knob_Ends_LieInTheRangeOfTheKey(Knob knob)
    {
        Assert.That(knob.Harsh, Is.InRange(knob.Key.Minimum, knob.Key.Maximum).And.Not.EqualTo(knob.Mild));
        Assert.That(knob.Mild, Is.InRange(knob.Key.Minimum, knob.Key.Maximum));
        Assert.That(knob.Weight, Is.GreaterThanOrEqualTo(1));
        Assert.That(knob.Source, Is.Not.Empty);
    }

    [TestCaseSource(nameof(All))]
    public void Knob_HarshEndAlone_MakesAStream(Knob knob)
    {
        // Of levels in two units the other one is not set here; only heart's own rules may refuse.
        Scenario scenario = Runs.Read(20);
        KnobRange range = KnobRange.On(knob, scenario)!;
        var input = new ChallengeInput([range], [new Disturbance(0, range.ValueAt(1)!.Value)], 20);

        Assert.That(() => input.On(scenario).CreateStream(), Throws.Nothing);
        Assert.That(input.Harshness, Is.EqualTo(knob.Weight).Within(1e-9));
    }

    [TestCaseSource(nameof(All))]
    public void Range_DownByStepsOfItsGrid_EndsAtTheScenario(Knob knob)
    {
        KnobRange range = KnobRange.On(knob, Runs.Read(20))!;
        double? value = range.ValueAt(1);
        int steps = 0;
        for (double level = 2; value is double x; steps++)
        {
            Assert.That(range.LevelOf(x), Is.LessThan(level).And.GreaterThan(0));
            Assert.That(FormattableString.Invariant($"{x:R}"), Has.Length.LessThanOrEqualTo(6), "a round number");
            level = range.LevelOf(x);
            value = range.Milder(x);
        }

        Assert.That(steps, Is.InRange(15, 260));
        Assert.That(range.ValueAt(0), Is.Null);
    }

    [TestCase(0.37, 0.37)]
    [TestCase(0.012, 0.01)]
    [TestCase(0.999, 1.0)]
    public void ValueAt_OneMillivolt_IsOnHundredths(double level, double expected)
    {
        // 0 to 1 mV in steps of 0.01 mV.
        KnobRange range = KnobRange.On(Knobs.Named(["ecg_amplifier.baseline_wander_mv_rms"])[0], Runs.Read(20))!;

        Assert.That(range.ValueAt(level), Is.EqualTo(expected));
    }

    [Test]
    public void ValueAt_Ratio_HalfwayIsTheGeometricMean()
    {
        // √(2 × 0.1) = 0.447, in two digits 0.45; the next milder 0.46.
        KnobRange range = KnobRange.On(Knobs.Named(["pulse.perfusion_index_percent"])[0], Runs.Read(20))!;

        Assert.That(range.ValueAt(0.5), Is.EqualTo(0.45));
        Assert.That(range.Milder(0.45), Is.EqualTo(0.46));
        Assert.That(range.LevelOf(0.1), Is.EqualTo(1).Within(1e-12));
    }

    [Test]
    public void On_ScenarioWithAValue_BeginsThere()
    {
        Knob knob = Knobs.Named(["ecg_amplifier.baseline_wander_mv_rms"])[0];
        KnobRange range = KnobRange.On(knob, Runs.Read(20, "[ecg_amplifier]\nbaseline_wander_mv_rms = 0.5"))!;

        Assert.That(range.LevelOf(0.75), Is.EqualTo(0.5));
        Assert.That(range.Milder(0.505), Is.Null, "nothing between it and the scenario's own value");
        Assert.That(KnobRange.On(knob, Runs.Read(20, "[ecg_amplifier]\nbaseline_wander_mv_rms = 1.5")), Is.Null, "harsher than the harsh end already");
    }

    [Test]
    public void On_AlongValues_DoNotTouchWhatTheScenarioSays()
    {
        Scenario scenario = Runs.Read(20, "[ambient]\nlevel_lux = 40");
        KnobRange flicker = KnobRange.On(Knobs.Named(["ambient.flicker_percent"])[0], scenario)!;
        Scenario made = new ChallengeInput([flicker], [new Disturbance(0, 60)], 20).On(scenario);

        Assert.That(made.Own.Select(o => $"{o.Key.Name} {o.Text}"), Is.EqualTo(new[] { "ambient.flicker_percent 60" }));
    }
}
