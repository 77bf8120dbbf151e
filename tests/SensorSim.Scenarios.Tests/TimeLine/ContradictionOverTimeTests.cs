// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Reading;

namespace SensorSim.Scenarios.Tests.TimeLine;

/// <summary>Keys that fit together at the start and not later; the limit that the message names must itself be accepted.</summary>
[TestFixture]
public sealed class ContradictionOverTimeTests
{
    // Arithmetic: at 150 bpm the mean RR is 400 ms, three standard deviations above 240 ms leave (400 - 240) / 3 = 53 ms.
    private const string Fast = "slow_variability_ms = 0\n[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 20\nramp_to = 150\nover_s = 10\n";

    [Test]
    public void ReadText_RateGrowsBeyondItsVariability_NamesTimeAndLimit()
    {
        Assert.That(
            Mistaken.Line("[heart]\nrespiratory_variability_ms = 60\n" + Fast),
            Is.EqualTo("a.toml, line 7, column 11: RR variability of 60 ms in all is too much at 150 bpm, reached at 30 s; at most 53 ms leave every RR above 240 ms"));
        Assert.That(() => ScenarioReader.ReadText("[heart]\nrespiratory_variability_ms = 53\n" + Fast, "a"), Throws.Nothing);
    }

    // The key at fault stands nowhere: the change that leads there is what can be corrected.
    [Test]
    public void ReadText_ChangeContradictsADefault_NamesTheChange() => Assert.That(
        Mistaken.Line("[[change]]\nat_s = 5\nkey = \"heart.pause_s\"\nstep_to = 12\n"),
        Is.EqualTo("a.toml, line 4, column 11: heart.pause_s = 12 is more than half of heart.pause_every_s = 20; at most 10 s, or heart.pause_every_s at least 24 s"));

    [Test]
    public void ReadText_VariabilityFallsInTime_IsAccepted()
    {
        const string Falls = "[[change]]\nkey = \"heart.respiratory_variability_ms\"\nat_s = 10\nstep_to = 40\n";

        Assert.That(() => ScenarioReader.ReadText("[heart]\nrespiratory_variability_ms = 60\n" + Fast + Falls, "a"), Throws.Nothing);
    }

    // The peaks of a swing count too: 100 + 50 bpm at a quarter of its period.
    [Test]
    public void ReadText_SwingReachesTooFar_IsRefused() => Assert.That(
        Mistaken.Line("[heart]\nrate_bpm = 100\nrespiratory_variability_ms = 60\nslow_variability_ms = 0\n[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 20\nswing_by = 50\nperiod_s = 8\nfor_s = 30\n"),
        Does.Contain("at 150 bpm, reached at 22 s; at most 53 ms"));

    [Test]
    public void ReadText_BreathingSlowsBelowItsSpread_NamesTimeAndLimit()
    {
        const string Slow = "[[change]]\nkey = \"breathing.rate_per_min\"\nat_s = 20\nsettle_to = 8\ntime_constant_s = 2\n";

        Assert.That(
            Mistaken.Line("[breathing]\nspread_per_min = 3\n" + Slow),
            Does.StartWith("a.toml, line 6, column 13: breathing.spread_per_min = 3 at breathing.rate_per_min = ").And.Contain("would mean breathing that runs backwards; at most "));
        Assert.That(() => ScenarioReader.ReadText("[breathing]\nspread_per_min = 2\n" + Slow, "a"), Throws.Nothing);
    }

    [Test]
    public void ReadText_SpreadOfArrivalGrows_NamesTimeAndLimit() => Assert.That(
        Mistaken.Line("[ejection]\npep_ms = 50\npep_variation_ms = 0\n[pulse]\narrival_ms = 100\n[[change]]\nkey = \"pulse.arrival_spread_ms\"\nat_s = 20\nstep_to = 16\n"),
        Is.EqualTo("a.toml, line 9, column 11: pulse.arrival_spread_ms = 16 at pulse.arrival_ms = 100, reached at 20 s, would mean feet before their R peak; at most 15.6"));
}
