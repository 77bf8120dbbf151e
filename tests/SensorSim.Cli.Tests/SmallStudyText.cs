// SPDX-License-Identifier: MIT
namespace SensorSim.Cli.Tests;

/// <summary>Studies small enough for a test.</summary>
internal static class SmallStudyText
{
    /// <summary>Two levels of noise.</summary>
    /// <param name="scenario">The scenario, relative to the study file.</param>
    /// <param name="seeds">Seeds.</param>
    public static string Of(string scenario, int seeds) => FormattableString.Invariant($"""
        [study]
        title = "small study"
        scenario = "{scenario}"
        first_seed = 1
        seed_count = {seeds}

        [[vary]]
        key = "ecg_noise.muscle_snr_db"
        values = [24, -6]

        [[detector]]
        label = "ours"
        adapter = "library"

        [requirements]
        r_peak_sensitivity_min = 0.99

        """);
}
