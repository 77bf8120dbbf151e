// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Settings of the light chain that contradict each other; the limit that the message names must itself be accepted.</summary>
[TestFixture]
public sealed class OpticsContradictionTests
{
    // Arithmetic: a band is at least a fifth wide, 60 / 1.2 = 50 and 30 × 1.2 = 36; lifted for at most half an hour in each: 1800 s / 6 s = 300.
    [TestCase(
        "[optics]\nlevel_control = \"on\"\nlevel_low_percent = 55\nlevel_high_percent = 60\n",
        "a.toml, line 3, column 21: optics.level_low_percent = 55 leaves the level control no band below optics.level_high_percent = 60; at most 50 %",
        "level_low_percent = 55",
        "level_low_percent = 50")]
    [TestCase(
        "[optics]\nlevel_control = \"on\"\nlevel_high_percent = 30\n",
        "a.toml, line 3, column 22: optics.level_high_percent = 30 leaves the level control no band above optics.level_low_percent = 30; at least 36 %",
        "level_high_percent = 30",
        "level_high_percent = 36")]
    [TestCase(
        "[optics]\nlevel_control = \"on\"\ninfrared_ma = 80\n",
        "a.toml, line 3, column 15: optics.infrared_ma = 80 lies above optics.level_current_ma_max = 50, the most that the level control sets; at most 50 mA",
        "infrared_ma = 80",
        "infrared_ma = 50")]
    [TestCase(
        "[optics]\nlift_offs_per_h = 301\nlift_off_s = 6\n",
        "a.toml, line 2, column 19: optics.lift_offs_per_h = 301 of 6 s each would lift the sensor for more than half of the time; at most 300 an hour",
        "lift_offs_per_h = 301",
        "lift_offs_per_h = 300")]
    public void ReadText_ContradictingLightChain_NamesALimitThatFits(string text, string message, string wrong, string right)
    {
        Assert.That(Mistaken.Line(text), Is.EqualTo(message));
        Assert.That(() => ScenarioReader.ReadText(text.Replace(wrong, right, StringComparison.Ordinal), "a"), Throws.Nothing);
    }

    // Without level control its band means nothing, and a green LED without light is none.
    [TestCase("[optics]\nlevel_low_percent = 80\nlevel_high_percent = 20\n")]
    [TestCase("[optics]\nred_ma = 150\n")]
    [TestCase("[optics]\nlevel_control = \"on\"\ngreen_ma = 80\n")]
    public void ReadText_WhatDoesNotAct_IsNoMistake(string text) => Assert.That(() => ScenarioReader.ReadText(text, "a"), Throws.Nothing);
}
