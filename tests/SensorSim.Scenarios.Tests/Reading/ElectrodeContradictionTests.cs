// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Filters and electrodes that contradict each other; the limit that the message names must itself be accepted.</summary>
[TestFixture]
public sealed class ElectrodeContradictionTests
{
    // 0.45 × 250 Hz = 112.5 Hz; half of 15 Hz is 7.5 Hz.
    [TestCase("[ecg_amplifier]\nlow_pass_hz = 113\n", "line 2", "at most 112.5 Hz", "[ecg_amplifier]\nlow_pass_hz = 112.5\n")]
    [TestCase("[ecg_amplifier]\nrate_hz = 100\nlow_pass_hz = 50\n", "line 3", "at most 45 Hz", "[ecg_amplifier]\nrate_hz = 100\nlow_pass_hz = 45\n")]
    [TestCase("[ecg_amplifier]\nlow_pass_hz = 15\nhigh_pass_hz = 8\n", "line 3", "at most 7.5 Hz", "[ecg_amplifier]\nlow_pass_hz = 15\nhigh_pass_hz = 7.5\n")]
    public void ReadText_FiltersThatContradict_NameALimitThatFits(string text, string line, string limit, string better)
    {
        Assert.That(Mistaken.Line(text), Does.StartWith($"a.toml, {line}, column ").And.Contain(limit));
        Assert.That(() => ScenarioReader.ReadText(better, "a"), Throws.Nothing);
    }

    [Test]
    public void ReadText_ThirdElectrodeOffThatIsNotThere_IsRefused()
    {
        Assert.That(
            Mistaken.Line("[electrodes]\nthird = \"none\"\noff = \"third\"\n"),
            Is.EqualTo("a.toml, line 3, column 7: electrodes.off = \"third\" needs a third electrode, and electrodes.third = \"none\"; leave out one of them"));
        Assert.That(() => ScenarioReader.ReadText("[electrodes]\nthird = \"passive\"\noff = \"third\"\n", "a"), Throws.Nothing);
    }
}
