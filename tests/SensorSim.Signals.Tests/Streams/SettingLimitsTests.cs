// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Tests.Streams;

/// <summary>Settings of a sensor: their words, and the values that they may have.</summary>
public sealed class SettingLimitsTests
{
    [Test]
    public void Words_EverySetting_ReadBack()
    {
        foreach (SensorSetting setting in Enum.GetValues<SensorSetting>())
        {
            Assert.That(SensorSettings.TryParse(setting.Text(), out SensorSetting read) && read == setting, setting.Text());
        }

        Assert.That(SensorSettings.TryParse("Gain", out _), Is.False);
        Assert.That(SensorSettings.All, Has.Count.EqualTo(Enum.GetValues<SensorSetting>().Length));
    }

    [TestCase(0, true)]
    [TestCase(3000, true)]
    [TestCase(3001, false)]
    [TestCase(4000, false)]
    [TestCase(-1000, false)]
    [TestCase(1500, false)]
    public void Allows_WholeNumbers_AreThoseInRange(int milli, bool expected) =>
        Assert.That(new SettingLimits(0, 3000, 1000).Allows(milli), Is.EqualTo(expected));

    [Test]
    public void None_AllowsNothing()
    {
        Assert.That(SettingLimits.None.Exists, Is.False);
        Assert.That(SettingLimits.None.Allows(0) || SettingLimits.None.Allows(-1), Is.False);
    }

    [Test]
    public void Text_SaysRangeAndUnit()
    {
        Assert.That(new SettingLimits(10, 250_000, 1).Text(SensorSetting.LedCurrentMa), Is.EqualTo("a number of at most three decimals, 0.01 to 250 mA"));
        Assert.That(new SettingLimits(0, 3000, 1000).Text(SensorSetting.Decimation), Is.EqualTo("a whole number, 0 to 3"));
    }
}
