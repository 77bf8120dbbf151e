// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Acquisition;

/// <summary>Levels of electrodes and amplifier.</summary>
public sealed class ElectrodeLevelTests
{
    [Test]
    public void Of_TheDefaults_IsNothing() => Assert.That(Levels(""), Is.Empty);

    // 0.207 µA (220 V, 3 pF, 50 Hz) through 10 kΩ: 2.07 mV (Webster, from memory: 2 mV). 20 kΩ of difference against 10 MΩ: 2.07 mV × 0.002 = 4.1 µV rms, 11.7 peak to peak.
    [Test]
    public void Of_MainsOnTheBody_AreCommonModeAndWhatIsLeft()
    {
        Dictionary<string, double> levels = Levels(
            "[mains]\nsupply_v = 220\nfrequency_hz = 50\nbody_coupling_pf = 3\ndevice_earth_pf = 1e7\n"
            + "[electrodes]\nthird = \"passive\"\nimpedance_third_kohm = 10\nimpedance_positive_kohm = 20\nimpedance_negative_kohm = 0\n[ecg_amplifier]\ncmrr_db = 160\n");
        Assert.That(levels["common_mode_mv_rms"], Is.EqualTo(2.07).Within(1).Percent);
        Assert.That(levels["mains_pickup_uv_pp"], Is.EqualTo(2.07 * 0.002 * 2 * Math.Sqrt(2) * 1000).Within(1).Percent);
    }

    [Test]
    public void Of_SizesWithoutARate_IsNothing()
    {
        Dictionary<string, double> levels = Levels("[electrodes]\nstep_mv_rms = 3\npop_mv_rms = 4\noverload_mv = 900\n[mains]\nmodulation_percent = 50\n");
        Assert.That(levels, Is.Empty);
    }

    [Test]
    public void Of_WhatIsOn_AreItsLevels()
    {
        Dictionary<string, double> levels = Levels(
            "[electrodes]\noffset_mv = -20\nsteps_per_min = 2\nstep_mv_rms = 3\noverload_at_s = 4\n[ecg_amplifier]\nhigh_pass_hz = 0.5\nmains_uv_pp = 20\n[mains]\nmodulation_percent = 50\n");
        Assert.That(
            levels.Where(l => !l.Key.Contains("snr", StringComparison.Ordinal)).Select(l => $"{l.Key} {l.Value}"),
            Is.EquivalentTo(new[]
            {
                "electrode_offset_mv -20", "electrode_steps_per_min 2", "electrode_step_mv_rms 3", "overload_at_s 4", "overload_mv 1000", "high_pass_hz 0.5",
                "mains_modulation_percent 50", "mains_uv_pp 20", "mains_second_percent 10", "mains_third_percent 20", "mains_frequency_hz 50.03",
            }));
    }

    // Levels of the ECG by name, as the file has them.
    private static Dictionary<string, double> Levels(string text)
    {
        Scenario scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 10\n" + text, "a.toml");
        using var written = new MemoryStream();
        AcquisitionRows.Write(scenario, scenario.CreateStream().Format, written);
        using var reader = new AcquisitionCsvReader(new MemoryStream(written.ToArray()), "acquisition.csv");
        Dictionary<string, double> levels = [];
        while (reader.TryRead(out AcquisitionRow row))
        {
            if (row.Channel == ChannelName.Ecg && row.Item.StartsWith("level_", StringComparison.Ordinal))
            {
                levels.Add(row.Item["level_".Length..], row.Value);
            }
        }

        return levels;
    }
}
