// SPDX-License-Identifier: MIT
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pulse;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Oxygen;

/// <summary>Pulse heights, skin, ready-made courses.</summary>
public sealed class LightTests
{
    // ln(Imax/Imin) for AC/DC of 1, 5, 10, 20 % (worked).
    [TestCase(1, 0.01000008, 5e-9)]
    [TestCase(5, 0.0500104, 5e-8)]
    [TestCase(10, 0.1000835, 5e-8)]
    [TestCase(20, 0.2006707, 5e-8)]
    public void Height_PerfusionIndex_IsTheWorkedLogarithm(double percent, double height, double step) =>
        Assert.That(Perfusion.Height(percent), Is.EqualTo(height).Within(step));

    [Test]
    public void Gains_RatioGivenAsBefore_AreTheBodysToTheBit()
    {
        KeyValues values = new KeyValues().Set(PulseKeys.RatioOfRatios, 0.8).Set(PulseKeys.PerfusionIndexPercent, 1.7);
        PulseGains gains = new LightGains(values).At(3);
        PulseGains body = new Heartbeats(values, 1, 2).Beats[^1].Gains;
        Assert.That((gains[0], gains[1]), Is.EqualTo((body[0], body[1])));
    }

    [Test]
    public void Gains_PerfusionAndSaturationChange_FollowAtTheirTime()
    {
        KeyValues values = new KeyValues()
            .SetChanges(PulseKeys.PerfusionIndexPercent, [new CourseChange(10, ChangeKind.Step, 0.5, 0)], [])
            .SetChanges(OxygenKeys.SaturationPercent, [new CourseChange(20, ChangeKind.Step, 85, 0)], []);
        var gains = new LightGains(values);
        Assert.That(gains.At(9)[1], Is.EqualTo(Math.Log(1.01 / 0.99)).Within(1e-15));
        Assert.That(gains.At(11)[1], Is.EqualTo(Math.Log(1.0025 / 0.9975)).Within(1e-15));
        Assert.That(gains.At(11)[0] / gains.At(11)[1], Is.EqualTo(0.52).Within(1e-12));
        Assert.That(gains.At(21)[0] / gains.At(21)[1], Is.EqualTo(1.0).Within(1e-12));
    }

    // Gains that never change are found once: each knob alone has to be able to change them.
    [Test]
    public void Gains_OneKnobChanges_AreNotTakenForSteady()
    {
        KeyValues values = new KeyValues().Set(OxygenKeys.VenousSharePercent, 10);
        Assert.That(new LightGains(values).IsSteady);
        (NumberKey Key, double To)[] knobs =
        [
            (PulseKeys.PerfusionIndexPercent, 0.5), (OxygenKeys.SaturationPercent, 85), (OxygenKeys.CarboxyhaemoglobinPercent, 5),
            (OxygenKeys.MethaemoglobinPercent, 5), (OxygenKeys.VenousSharePercent, 20), (OxygenKeys.VenousSaturationPercent, 50),
            (PulseKeys.RatioOfRatios, 1),
        ];
        foreach ((NumberKey key, double to) in knobs)
        {
            var gains = new LightGains(values.Copy().SetChanges(key, [new CourseChange(10, ChangeKind.Step, to, 0)], []));
            Assert.That(gains.IsSteady, Is.False, key.Name);
            Assert.That((gains.At(11)[0], gains.At(11)[1]), Is.Not.EqualTo((gains.At(9)[0], gains.At(9)[1])), key.Name);
        }
    }

    // 6.6e11 · nm^-3.33 per cm, epidermis of 60 µm, passed twice (Jacques 1998): with 30.5 against 3.8 % of melanosomes.
    [TestCase(530)]
    [TestCase(660)]
    [TestCase(940)]
    public void Skin_DarkestTone_DimsByBeerLambertOfJacquesMelanin(double nm)
    {
        double expected = Math.Exp(-6.6e11 * Math.Pow(nm, -3.33) * 2 * 0.006 * (0.305 - 0.038));
        Assert.That(SkinOptics.LightFactor(6, nm), Is.EqualTo(expected).Within(1e-12));
    }

    // Light skin 1.3 to 6.3 % of melanosomes, moderate 11 to 16 %, dark 18 to 43 % (Jacques 1998, from memory).
    [TestCase(1, 1.3, 6.3)]
    [TestCase(2, 1.3, 6.3)]
    [TestCase(3, 1.3, 6.3)]
    [TestCase(4, 11, 16)]
    [TestCase(5, 18, 43)]
    [TestCase(6, 18, 43)]
    public void Skin_Tones_HoldThePublishedShares(double tone, double low, double high) =>
        Assert.That(SkinOptics.MelaninShare(tone) * 100, Is.InRange(low, high));

    [Test]
    public void Skin_ToneAndWavelength_DimInOrder()
    {
        foreach (double nm in (double[])[530, 660, 940])
        {
            Assert.That(SkinOptics.LightFactor(2, nm), Is.EqualTo(1));
            Assert.That(SkinOptics.LightFactor(2.5, nm), Is.LessThan(1).And.GreaterThan(SkinOptics.LightFactor(3, nm)));
            for (double tone = 1; tone < 6; tone += 0.5)
            {
                Assert.That(SkinOptics.LightFactor(tone + 0.5, nm), Is.LessThan(SkinOptics.LightFactor(tone, nm)));
            }
        }

        Assert.That(SkinOptics.LightFactor(5, 530), Is.LessThan(SkinOptics.LightFactor(5, 660)));
        Assert.That(SkinOptics.LightFactor(5, 660), Is.LessThan(SkinOptics.LightFactor(5, 940)));
    }

    [Test]
    public void BreathHold_LongOne_FallsToTheNadirAndRecovers()
    {
        IReadOnlyList<CourseChange> hold = DesaturationShapes.BreathHold(60, 90, 25, 97, 30, 82, 15);
        var model = new OxygenModel(new KeyValues().SetChanges(OxygenKeys.SaturationPercent, hold, []));
        Assert.That(model.SaturationPercent(84.9), Is.EqualTo(97));
        Assert.That(model.SaturationPercent(100), Is.EqualTo(97 - 7.5).Within(1e-9), "15 s at 30 points a minute");
        Assert.That(model.SaturationPercent(120), Is.EqualTo(82).Within(1e-9));
        Assert.That(model.SaturationPercent(174.9), Is.EqualTo(82).Within(1e-9));
        Assert.That(model.SaturationPercent(190), Is.EqualTo(97 - (15 / Math.E)).Within(1e-9), "one time constant");
    }

    [Test]
    public void BreathHold_ShortOne_TurnsBeforeTheNadirWithoutAJump()
    {
        var course = new Course(97, DesaturationShapes.BreathHold(0, 10, 20, 97, 30, 82, 15), []);
        Assert.That(course.Value(29.999), Is.EqualTo(92).Within(1e-3));
        Assert.That(course.Value(30.001), Is.EqualTo(92).Within(1e-3));
        Assert.That(Enumerable.Range(0, 2000).Min(i => course.Value(i * 0.1)), Is.EqualTo(92).Within(1e-9));
    }

    [Test]
    public void BreathHold_NadirAboveBaseline_IsRefused() =>
        Assert.That(() => DesaturationShapes.BreathHold(0, 10, 20, 90, 30, 95, 15), Throws.InstanceOf<ArgumentOutOfRangeException>());
}
