// SPDX-License-Identifier: MIT
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pulse;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Oxygen;

/// <summary>Which law is in force and what contradicts it.</summary>
public sealed class OxygenLawsTests
{
    [Test]
    public void Conflicts_NothingOrOneSideGiven_AreNone()
    {
        Assert.That(Keys(new KeyValues()), Is.Empty);
        Assert.That(Keys(new KeyValues().Set(PulseKeys.RatioOfRatios, 0.7)), Is.Empty);
        Assert.That(Keys(new KeyValues().Set(OxygenKeys.SaturationPercent, 90).Set(OxygenKeys.VenousSharePercent, 5)), Is.Empty);
        Assert.That(Keys(new KeyValues().Set(OxygenKeys.Law, "given_ratio").Set(PulseKeys.RatioOfRatios, 0.7).Set(OxygenKeys.Table, "0.4:100, 1:85")), Is.Empty);
    }

    [Test]
    public void Conflicts_RatioAndSaturation_NameTheSaturation() =>
        Assert.That(
            Keys(new KeyValues().Set(PulseKeys.RatioOfRatios, 0.7).Set(OxygenKeys.SaturationPercent, 90)),
            Is.EqualTo(new[] { "oxygen.saturation_percent" }));

    [Test]
    public void Conflicts_RatioChangesUnderALaw_NameTheRatio()
    {
        KeyValues values = new KeyValues().Set(OxygenKeys.Law, "extinction").Set(OxygenKeys.Table, "0.4:100, 1:85")
            .SetChanges(PulseKeys.RatioOfRatios, [new CourseChange(5, ChangeKind.Step, 1, 0)], []);
        Assert.That(Keys(values), Is.EqualTo(new[] { "pulse.ratio_of_ratios", "oxygen.table" }));
    }

    [Test]
    public void Conflicts_SourcesOfErrorBesideAGivenRatio_AreNamed()
    {
        KeyValues values = new KeyValues().Set(OxygenKeys.Law, "given_ratio").Set(OxygenKeys.MethaemoglobinPercent, 5).Set(OxygenKeys.SkinBiasPoints, 0.5);
        Assert.That(Keys(values), Is.EqualTo(new[] { "oxygen.methaemoglobin_percent", "oxygen.skin_bias_points" }));
    }

    private static string[] Keys(KeyValues values) => [.. OxygenLaws.Conflicts(values).Select(c => c.Key.Name)];
}
