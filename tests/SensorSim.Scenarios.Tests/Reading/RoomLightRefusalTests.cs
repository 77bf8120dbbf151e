// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Light below zero and an artefact that nothing drives are refused with the nearest value that fits.</summary>
[TestFixture]
public sealed class RoomLightRefusalTests
{
    // The dip of sin x + a sin 2x + b sin 3x: 1.7602 for a = 1 and b = 0, 1.2209 for 0.4 and 0.1 (searched on a grid of 100,000 places and
    // narrowed by thirds, outside of the project), 8√3/9 for 0 and 1 (4 s (1 − s²) is largest at s² = 1/3); one over it, down to a tenth.
    [TestCase("flicker_second_percent = 100", 56.8)]
    [TestCase("flicker_third_percent = 100", 64.9)]
    [TestCase("flicker_second_percent = 40\nflicker_third_percent = 10", 81.9)]
    public void ReadText_HarmonicsBelowZero_NamesTheMostThatFits(string harmonics, double most)
    {
        string at = most.ToString("R", CultureInfo.InvariantCulture);
        string above = (most + 0.1).ToString("0.#", CultureInfo.InvariantCulture);

        Assert.That(() => ScenarioReader.ReadText($"[ambient]\nflicker_percent = {at}\n{harmonics}\n", "a.toml"), Throws.Nothing);
        Assert.That(
            Mistaken.Line($"[ambient]\nflicker_percent = {above}\n{harmonics}\n"),
            Does.StartWith($"a.toml, line 2, column 19: ambient.flicker_percent = {above} with harmonics of ").And.EndsWith($" % would make light below zero; at most {at} %"));
    }

    // Reached later: told where the change stands.
    [Test]
    public void ReadText_HarmonicsThatGrow_AreRefusedToo() => Assert.That(
        Mistaken.Line("[ambient]\nflicker_percent = 90\n[[change]]\nkey = \"ambient.flicker_third_percent\"\nat_s = 10\nstep_to = 100\n"),
        Does.StartWith("a.toml, line 2, column 19: ambient.flicker_percent = 90 ").And.EndsWith("at most 64.9 %"));

    [Test]
    public void ReadText_FullFlickerWithoutHarmonics_IsFine() =>
        Assert.That(() => ScenarioReader.ReadText("[ambient]\nflicker_percent = 100\n", "a.toml"), Throws.Nothing);

    [Test]
    public void ReadText_NoShareOfAnyAxis_IsRefusedWhenThereIsAnArtefact()
    {
        const string None = "[optics]\nartefact_forward_percent = 0\nartefact_upward_percent = 0\n";

        Assert.That(() => ScenarioReader.ReadText(None, "a.toml"), Throws.Nothing);
        Assert.That(() => ScenarioReader.ReadText(None + "artefact_sideways_percent = 1\nmovement_artefact_ratio = 1\n", "a.toml"), Throws.Nothing);
        Assert.That(
            Mistaken.Line(None + "movement_artefact_ratio = 1\n"),
            Is.EqualTo("a.toml, line 3, column 27: optics.artefact_forward_percent, _sideways_percent and _upward_percent are all 0, so nothing drives the movement artefact; set one of them"));
    }
}
