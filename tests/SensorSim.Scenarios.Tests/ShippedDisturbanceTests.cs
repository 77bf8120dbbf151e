// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Streams;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests;

/// <summary>
/// The scenarios of disturbances: each reads, runs to its end, tells the level that its name speaks of, and what the acquisition does is
/// what the name promises and nothing else.
/// </summary>
[TestFixture]
public sealed partial class ShippedDisturbanceTests
{
    private static readonly AcquisitionKind[] s_lost = [AcquisitionKind.Gap, AcquisitionKind.UnusableLost];

    // Where no level is told: what it is instead stands in the format, the settings or the clock.
    private static readonly Dictionary<string, (string Level, AcquisitionKind[] Told)> s_promises = new(StringComparer.Ordinal)
    {
        ["acceleration-clipping"] = ("movement_artefact_ratio", [AcquisitionKind.UnusableSaturated]),
        ["acceleration-errors"] = ("turned_z_deg", []),
        ["data-buffer-overflow"] = ("stalls_per_min", s_lost),
        ["data-late-packets"] = ("packet_delay_ms", [.. s_lost, AcquisitionKind.LatePacket]),
        ["data-packet-loss"] = ("packet_loss_percent", s_lost),
        ["data-sampling-jitter"] = ("sampling_jitter_us_rms", []),
        ["data-single-samples"] = ("bit_flips_per_million", [AcquisitionKind.Gap]),
        ["ecg-baseline-wander"] = ("baseline_wander_mv_rms", []),
        ["ecg-coarse-converter"] = ("converter_nonlinearity_codes", []),
        ["ecg-falling-noise"] = ("flicker_noise_uv_rms", []),
        ["ecg-lead-off"] = ("contact_loss_per_h", [AcquisitionKind.UnusableLeadOff]),
        ["ecg-mains"] = ("mains_uv_pp", []),
        ["ecg-mains-unequal-contact"] = ("mains_pickup_uv_pp", []),
        ["ecg-muscle-bursts"] = ("muscle_bursts_uv_rms", []),
        ["ecg-muscle-steady"] = ("muscle_uv_rms", []),
        ["ecg-no-third-electrode"] = ("common_mode_mv_rms", []),
        ["ecg-offset-steps"] = ("electrode_steps_per_min", []),
        ["ecg-overload"] = ("overload_mv", [AcquisitionKind.UnusableSaturated]),

        // Clipped spikes come to a few milliseconds a beat: nothing is unusable.
        ["ecg-pacing-spikes"] = ("input_range_mv", []),
        ["ecg-pops"] = ("electrode_pops_per_min", []),
        ["ecg-recorded-noise"] = ("recording_snr_db", []),
        ["ecg-sharp-motion"] = ("sharp_motion_snr_db", []),
        ["ecg-slow-motion"] = ("slow_motion_snr_db", []),
        ["ecg-white-noise"] = ("white_noise_snr_db", []),
        ["light-artefact-explained"] = ("movement_artefact_ratio", []),
        ["light-artefact-unexplained"] = ("movement_coherence_percent", []),
        ["light-contact-pressure"] = ("contact_pressure_mmhg", []),
        ["light-crosstalk"] = ("crosstalk_percent", []),
        ["light-daylight"] = ("daylight_na", []),
        ["light-flicker-harmonics"] = ("flicker_third_percent", []),
        ["light-hands"] = ("hand_per_min", []),
        ["light-lamp-flicker"] = ("flicker_percent", []),

        // When all light comes back the current of before is too much, until the control has taken it down.
        ["light-level-control"] = ("led_current_ma", [AcquisitionKind.Setting, AcquisitionKind.UnusableSaturated]),
        ["light-lift-offs"] = ("lift_offs_per_h", [AcquisitionKind.UnusableNoContact]),
        ["light-noise"] = ("shot_noise_na_rms", []),
        ["light-pulse-width-lamp"] = ("pulse_width_lamp_na", []),
        ["light-sun-saturation"] = ("amplifier_full_na", [AcquisitionKind.UnusableSaturated]),
        ["settings-while-running"] = ("", [AcquisitionKind.Setting, AcquisitionKind.Gap]),
        ["two-devices"] = ("", []),
    };

    private static string Folder => Path.Combine(Repository.Root, "waveforms", "scenarios", "disturbances");

    private static IEnumerable<string> Names => s_promises.Keys;

    [Test]
    public void Promises_AreThereForEveryFile() => Assert.That(
        Directory.GetFiles(Folder, "*.toml").Select(f => Path.GetFileNameWithoutExtension(f)), Is.EquivalentTo(Names));

    [TestCaseSource(nameof(Names))]
    public void Stream_DoesWhatTheNamePromises(string name)
    {
        Scenario scenario = Read(name);
        var told = new HashSet<AcquisitionKind>();
        StreamCheck.ReadAll(
            scenario.CreateStream(), hasDamage: name == "data-single-samples", told: e => told.Add(e.Kind), isWhole: name != "settings-while-running");

        Assert.That(told, Is.EquivalentTo(s_promises[name].Told));
        Assert.That(scenario.Values.IsSet(ScenarioKeys.Title));
        Assert.That(scenario.Text, Does.StartWith("# "));
        Assert.That(scenario.DurationS, Is.InRange(60, 150));
        Assert.That(Levels(scenario), Does.Contain("level_" + s_promises[name].Level).Or.Matches<HashSet<string>>(_ => s_promises[name].Level.Length == 0));
    }

    // Three rows of the strip and three stretches of 40 s: what the comment says of them.
    [TestCaseSource(nameof(Names))]
    public void Changes_GoFromMildToBrutalTwice(string name)
    {
        Scenario scenario = Read(name);
        string[] graded = [.. ChangedKey().Matches(scenario.Text).Select(m => m.Groups[1].Value).Distinct().Where(k => k != "electrodes.off")];
        Assert.That(graded.Length > 0, Is.EqualTo(scenario.Text.Contains("# Mild from 0 s", StringComparison.Ordinal)));
        foreach (string key in graded)
        {
            Course course = scenario.Values.Course((NumberKey)AllKeys.Find(key)!);
            double[] steps = [course.Value(5), course.Value(15), course.Value(25)];
            Assert.That(steps, Is.Ordered.Ascending.Or.Ordered.Descending, key);
            Assert.That(steps, Is.Unique, key);
            Assert.That(new[] { 35, 65, 75, 105, 115, 149 }.Select(s => course.Value(s)), Is.EqualTo(steps.SelectMany(s => new[] { s, s })), key);
        }
    }

    private static HashSet<string> Levels(Scenario scenario)
    {
        using var written = new MemoryStream();
        AcquisitionRows.Write(scenario, scenario.CreateStream().Format, written);
        using var reader = new AcquisitionCsvReader(new MemoryStream(written.ToArray()), "acquisition.csv");
        HashSet<string> items = new(StringComparer.Ordinal);
        while (reader.TryRead(out AcquisitionRow row))
        {
            items.Add(row.Item);
        }

        return items;
    }

    private static Scenario Read(string name) => ScenarioReader.ReadFile(Path.Combine(Folder, name + ".toml"));

    [GeneratedRegex("^key = \"(.+)\"$", RegexOptions.Multiline)]
    private static partial Regex ChangedKey();
}
