// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Tests.Streams;

/// <summary>Every key at its default and at both ends of its range is read, and the stream can be made.</summary>
[TestFixture]
public sealed class ExtremeValueTests
{
    // Ends that other defaults contradict, with what makes them possible.
    private static readonly Dictionary<string, string> s_companions = new(StringComparer.Ordinal)
    {
        ["breathing.spread_per_min=5"] = "rate_per_min = 20\n",
        ["heart.rate_bpm=250"] = "respiratory_variability_ms = 0\nslow_variability_ms = 0\n[ecg]\nqtc_ms = 340\n",
        ["heart.rhythm=\"scripted\""] = "beats = \"normal 800, ventricular 480, normal 1120\"\n",
        ["heart.beats=\"normal 200\""] = "rhythm = \"scripted\"\n",
        ["heart.beats=\"paced 15000, ventricular 200\""] = "rhythm = \"scripted\"\n",
        ["heart.sdnn_ms=1"] = "rmssd_ms = 1\nlf_hf = 0.5\n",
        ["heart.sdnn_ms=50"] = "rmssd_ms = 42\nlf_hf = 1.5\n",
        ["heart.sdnn_ms=200"] = "rmssd_ms = 100\nlf_hf = 1.5\n",
        ["heart.rmssd_ms=1"] = "sdnn_ms = 5\nlf_hf = 1.5\n",
        ["heart.rmssd_ms=40"] = "sdnn_ms = 50\nlf_hf = 1.5\n",
        ["heart.rmssd_ms=200"] = "sdnn_ms = 180\nlf_hf = 0.3\n",
        ["heart.lf_hf=0.05"] = "sdnn_ms = 50\nrmssd_ms = 42\n",
        ["heart.lf_hf=1.5"] = "sdnn_ms = 50\nrmssd_ms = 42\n",
        ["heart.lf_hf=20"] = "sdnn_ms = 50\nrmssd_ms = 25\n",
        ["heart.pause_s=15"] = "pause_every_s = 30\n",
        ["ecg_amplifier.low_pass_hz=900"] = "rate_hz = 2000\n",
        ["pulse.arrival_ms=80"] = "[ejection]\npep_ms = 70\n",
        ["optics.slot_spacing_us=5000"] = "rate_hz = 50\n",
        ["optics.slot_spacing_us=10"] = "integration_us = 5\n",
        ["optics.integration_us=1000"] = "slot_spacing_us = 1000\n",
        ["ecg_amplifier.sampling_jitter_us_rms=1000"] = "rate_hz = 100\n",
        ["device.patience_ms=1"] = "late_ms = 1\n",
        ["second_device.patience_ms=1"] = "late_ms = 1\n",
        ["device.late_ms=100000"] = "patience_ms = 100000\n",
        ["second_device.late_ms=100000"] = "patience_ms = 100000\n",
    };

    private static IEnumerable<TestCaseData> Values()
    {
        // A path needs its file, and what comes from there too: tested with the lists of beats and the recordings.
        foreach (KeyDefinition key in AllKeys.List().Where(k => k != HeartKeys.BeatsFile && k != HeartKeys.BeatsLabel && k != ScenarioKeys.Sensor && !k.Key.Contains("recording_", StringComparison.Ordinal)))
        {
            string[] texts = key switch
            {
                NumberKey n => [Text(n.Minimum), Text(n.Default), Text(n.Maximum)],
                ChoiceKey c => [.. c.Choices.Select(v => $"\"{v}\"")],
                _ when key == HeartKeys.Beats => ["\"normal 200\"", "\"paced 15000, ventricular 200\""],
                _ when key == OxygenKeys.Table => ["\"\"", "\"0.4:100, 4:0\""],
                _ => ["\"\"", "\"Ω ‰ <&> \\\"\\\\ 心\""],
            };
            foreach (string text in texts.Distinct(StringComparer.Ordinal))
            {
                yield return new TestCaseData(key, text).SetArgDisplayNames(key.Name, text);
            }
        }
    }

    [TestCaseSource(nameof(Values))]
    public void CreateStream_KeyAtAnEnd_GivesSoundSamples(KeyDefinition key, string value)
    {
        string companion = s_companions.GetValueOrDefault($"{key.Name}={value}", "");
        string length = key.Section == "scenario" ? "" : "[scenario]\nduration_s = 2\n";
        Scenario scenario = ScenarioReader.ReadText($"{length}[{key.Section}]\n{key.Key} = {value}\n{companion}", "a.toml");

        Assert.That(scenario.Values.IsSet(key));
        if (scenario.DurationS <= 60)
        {
            StreamCheck.ReadAll(scenario.CreateStream(), hasDamage: key.Key == "bit_flips_per_million");
        }
    }

    [TestCaseSource(nameof(Values))]
    public void ReadText_KeyAlone_IsAcceptedOrContradictsWithASentence(KeyDefinition key, string value)
    {
        string text = $"[{key.Section}]\n{key.Key} = {value}\n";
        bool hasCompanion = s_companions.ContainsKey($"{key.Name}={value}");

        Assert.That(
            () => ScenarioReader.ReadText(text, "a.toml"),
            hasCompanion ? Throws.TypeOf<ScenarioException>().With.Message.StartsWith("a.toml, line 2, column ") : Throws.Nothing);
    }

    [Test]
    public void CreateStream_LongestDuration_EndsWhereItSays()
    {
        Scenario scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 3e7\n", "a.toml");

        // 250, 100 and 50 Hz: lowest common multiple 500.
        Assert.That(scenario.CreateStream().EndTick, Is.EqualTo(15_000_000_000L));
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
