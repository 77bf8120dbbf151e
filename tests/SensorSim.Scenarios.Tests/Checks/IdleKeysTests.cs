// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Checks;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Checks;

/// <summary>A key that is told to have no effect has none, to the bit; where what it needs is there, it has one and nothing is told.</summary>
[TestFixture]
public sealed class IdleKeysTests
{
    // Key and value, and what brings it in.
    private static readonly (string Key, string Value, string Gate)[] s_keys =
    [
        ("movement.cadence_hz", "1.7", "[movement]\nactivity = \"walking\""),
        ("movement.cadence_spread_hz", "0.1", "[movement]\nactivity = \"walking\""),
        ("movement.step_variation_percent", "9", "[movement]\nactivity = \"walking\""),
        ("movement.amplitude_g", "0.8", "[movement]\nactivity = \"walking\""),
        ("movement.cadence_per_beat", "1.5", "[movement]\nactivity = \"walking\""),
        ("movement.gesture_g", "2", "[movement]\ngestures_per_min = 20"),
        ("movement.tap_g", "2", "[movement]\ntaps_per_min = 60"),
        ("movement.tremor_hz", "5", "[movement]\ntremor_g = 0.2"),
        ("optics.movement_artefact_ratio", "2", "[movement]\nactivity = \"walking\""),
        ("optics.movement_coherence_percent", "50", "[movement]\nactivity = \"walking\"\n[optics]\nmovement_artefact_ratio = 2"),
        ("optics.artefact_sideways_percent", "50", "[movement]\nactivity = \"walking\"\n[optics]\nmovement_artefact_ratio = 2"),
        ("electrodes.step_mv_rms", "2", "[electrodes]\nsteps_per_min = 60"),
        ("electrodes.step_recovery_s", "1", "[electrodes]\nsteps_per_min = 60"),
        ("electrodes.pop_mv_rms", "2", "[electrodes]\npops_per_min = 120"),
        ("electrodes.pop_decay_ms", "300", "[electrodes]\npops_per_min = 120"),
        ("electrodes.contact_loss_s", "1", "[electrodes]\ncontact_loss_per_h = 600"),
        ("ecg_noise.slow_motion_uv_rms", "100", "[ecg_noise]\nslow_motion_rest_per_min = 60"),
        ("ecg_noise.slow_motion_snr_db", "6", "[movement]\nactivity = \"walking\""),
        ("ecg_noise.slow_motion_per_min", "90", "[movement]\nactivity = \"walking\"\n[ecg_noise]\nslow_motion_snr_db = 6"),
        ("ecg_noise.slow_motion_rest_per_min", "90", "[ecg_noise]\nslow_motion_uv_rms = 100"),
        ("ecg_noise.sharp_motion_uv_rms", "100", "[ecg_noise]\nsharp_motion_rest_per_min = 60"),
        ("ecg_noise.sharp_motion_snr_db", "6", "[movement]\ntyping_g = 0.1"),
        ("ecg_noise.sharp_motion_per_min", "90", "[movement]\nactivity = \"running\"\n[ecg_noise]\nsharp_motion_snr_db = 6"),
        ("ecg_noise.sharp_motion_rest_per_min", "90", "[ecg_noise]\nsharp_motion_uv_rms = 100"),
        ("ecg_noise.muscle_burst_per_min", "30", "[ecg_noise]\nmuscle_burst_snr_db = 6"),
        ("ecg_noise.muscle_burst_s", "3", "[ecg_noise]\nmuscle_burst_uv_rms = 100"),
        ("ectopy.ventricular_percent", "40", "[ectopy]\nventricular_pattern = \"random\""),
        ("ectopy.ventricular_coupling_percent", "45", "[ectopy]\nventricular_pattern = \"bigeminy\""),
        ("ectopy.coupling_spread_percent", "8", "[ectopy]\natrial_pattern = \"trigeminy\""),
        ("ectopy.ventricular_pause", "\"interpolated\"", "[ectopy]\nventricular_pattern = \"quadrigeminy\""),
        ("ectopy.ventricular_group_beats", "3", "[ectopy]\nventricular_pattern = \"quadrigeminy\""),
        ("ectopy.group_rate_bpm", "200", "[ectopy]\nventricular_pattern = \"quadrigeminy\"\nventricular_group_beats = 2"),
        ("ectopy.atrial_percent", "40", "[ectopy]\natrial_pattern = \"random\""),
        ("ectopy.atrial_coupling_percent", "80", "[ectopy]\natrial_pattern = \"trigeminy\""),
        ("ectopy.atrial_reset_percent", "95", "[ectopy]\natrial_pattern = \"trigeminy\""),
        ("fibrillation.rr_cv_percent", "40", "[heart]\nrhythm = \"atrial_fibrillation\""),
        ("fibrillation.wave_mv", "0.2", "[heart]\nrhythm = \"atrial_fibrillation\""),
        ("fibrillation.wave_hz", "8", "[heart]\nrhythm = \"atrial_fibrillation\""),
        ("flutter.conduction", "\"4_to_1\"", "[heart]\nrhythm = \"atrial_flutter\""),
        ("flutter.atrial_rate_per_min", "260", "[heart]\nrhythm = \"atrial_flutter\""),
        ("flutter.wave_mv", "0.4", "[heart]\nrhythm = \"atrial_flutter\""),
        ("ventricular_fibrillation.wave_hz", "6", "[heart]\nrhythm = \"ventricular_fibrillation\""),
        ("ventricular_fibrillation.wave_mv", "0.3", "[heart]\nrhythm = \"ventricular_fibrillation\""),
        ("ventricular_fibrillation.decay_s", "30", "[heart]\nrhythm = \"ventricular_fibrillation\""),
        ("ambient.na_per_lux", "2", "[ambient]\nlevel_lux = 500"),
        ("ambient.flicker_percent", "40", "[ambient]\nlevel_na = 2000"),
        ("ambient.flicker_second_percent", "40", "[ambient]\nlevel_na = 2000"),
        ("ambient.flicker_third_percent", "40", "[ambient]\nlevel_lux = 5000"),
        ("ambient.lamp_switch_per_min", "30", "[ambient]\nlevel_na = 2000"),
        ("ambient.pulse_width_hz", "700", "[ambient]\npulse_width_lamp_na = 2000"),
        ("ambient.pulse_width_duty_percent", "80", "[ambient]\npulse_width_lamp_na = 2000"),
        ("ambient.daylight_na_per_lux", "2", "[ambient]\ndaylight_lux = 2000"),
        ("ambient.shade_per_min", "30", "[ambient]\ndaylight_lux = 2000"),
        ("ambient.shade_depth_percent", "20", "[ambient]\ndaylight_lux = 2000\nshade_per_min = 30"),
        ("ambient.shade_ramp_s", "0.5", "[ambient]\ndaylight_lux = 2000\nshade_per_min = 30"),
        ("ambient.hand_per_min", "20", "[ambient]\nlevel_na = 2000"),
        ("ambient.hand_depth_percent", "95", "[ambient]\npulse_width_lamp_na = 2000\nhand_per_min = 20"),
    ];

    private static IEnumerable<TestCaseData> Keys() => s_keys.Select(k => new TestCaseData(k.Key, k.Value, k.Gate).SetArgDisplayNames(k.Key));

    private static IEnumerable<string> Shipped() => Directory.GetFiles(Path.Combine(Repository.Root, "waveforms", "scenarios"), "*.toml", SearchOption.AllDirectories)
        .Select(f => Path.GetRelativePath(Repository.Root, f).Replace('\\', '/'))
        .Order(StringComparer.Ordinal);

    [TestCaseSource(nameof(Keys))]
    public void Of_KeyWithoutWhatItNeeds_IsToldAndChangesNoBit(string key, string value, string gate)
    {
        Scenario with = Read("", key, value);

        Assert.That(IdleKeys.Of(with).Select(i => i.Key.Name), Is.EqualTo(new[] { key }));
        Assert.That(IdleKeys.Of(with)[0].Sentence, Does.StartWith($"{key} has no effect: "));
        Assert.That(Codes(with), Is.EqualTo(Codes(Read("", "", ""))));
    }

    [TestCaseSource(nameof(Keys))]
    public void Of_KeyWithWhatItNeeds_IsNotToldAndActs(string key, string value, string gate)
    {
        Scenario with = Read(gate, key, value);

        Assert.That(IdleKeys.Of(with), Is.Empty);
        Assert.That(Codes(with), Is.Not.EqualTo(Codes(Read(gate, "", ""))));
    }

    // A body that only types or rides takes no step: keys of the gait are told, unless something is measured in shares of it.
    [TestCase("movement.cadence_hz = 1.7")]
    [TestCase("movement.cadence_spread_hz = 0.1")]
    [TestCase("movement.step_variation_percent = 20")]
    [TestCase("movement.amplitude_g = 0.9")]
    [TestCase("movement.cadence_per_beat = 1.5")]
    public void Of_GaitOfABodyThatTakesNoStep_IsToldAndChangesNoBit(string line)
    {
        string key = line.Split(" = ")[0];
        foreach (string movement in new[] { "typing_g = 0.1", "vehicle_g_rms = 0.05", "taps_per_min = 60", "tremor_g = 0.1", "gestures_per_min = 10" })
        {
            string gate = $"[movement]\n{movement}";
            Scenario with = Read(gate, key, line.Split(" = ")[1]);

            Assert.That(IdleKeys.Of(with).Select(i => i.Sentence), Is.EqualTo(new[] { $"{key} has no effect: nobody walks or runs; set movement.activity" }), movement);
            Assert.That(Codes(with), Is.EqualTo(Codes(Read(gate, "", ""))), movement);
            Assert.That(IdleKeys.Of(Read($"{gate}\n[optics]\nmovement_artefact_ratio = 1", key, line.Split(" = ")[1])), Is.Empty, movement);
            Assert.That(IdleKeys.Of(Read($"{gate}\n[ecg_noise]\nslow_motion_snr_db = 6", key, line.Split(" = ")[1])), Is.Empty, movement);
        }
    }

    // Each of these stands beside something that does not bring it in.
    [TestCase("ectopy.ventricular_percent", "40", "[ectopy]\nventricular_pattern = \"bigeminy\"", "ectopy.ventricular_pattern is never \"random\"")]
    [TestCase("ectopy.ventricular_coupling_percent", "45", "[ectopy]\nventricular_pattern = \"random\"\nventricular_percent = 0", "ectopy.ventricular_percent is 0")]
    [TestCase("ectopy.ventricular_pause", "\"interpolated\"", "[ectopy]\nventricular_pattern = \"quadrigeminy\"\nventricular_group_beats = 2", "ectopy.ventricular_group_beats is never 1")]
    [TestCase("ectopy.group_rate_bpm", "200", "[ectopy]\nventricular_pattern = \"quadrigeminy\"", "ectopy.ventricular_group_beats is 1")]
    [TestCase("ectopy.atrial_coupling_percent", "80", "[ectopy]\nventricular_pattern = \"random\"", "ectopy.atrial_pattern is \"none\"")]
    [TestCase("fibrillation.wave_hz", "8", "[heart]\nrhythm = \"atrial_fibrillation\"\n[fibrillation]\nwave_mv = 0", "fibrillation.wave_mv is 0")]
    [TestCase("ambient.na_per_lux", "2", "[ambient]\nlevel_na = 2000", "ambient.level_lux is 0")]
    [TestCase("ambient.flicker_third_percent", "40", "[ambient]\nlevel_na = 2000\nflicker_percent = 0", "ambient.flicker_percent is 0")]
    [TestCase("ambient.lamp_switch_per_min", "30", "[ambient]\ndaylight_lux = 2000\nhand_per_min = 10", "ambient.level_na and ambient.level_lux are 0")]
    [TestCase("ambient.shade_per_min", "30", "[ambient]\nlevel_na = 2000\nhand_per_min = 10", "ambient.daylight_lux is 0")]
    [TestCase("ambient.shade_ramp_s", "0.5", "[ambient]\ndaylight_lux = 2000", "ambient.shade_per_min is 0")]
    [TestCase("ambient.hand_depth_percent", "95", "[ambient]\nlevel_na = 2000", "ambient.hand_per_min is 0")]
    public void Of_KeyBesideWhatDoesNotBringItIn_IsToldAndChangesNoBit(string key, string value, string gate, string why)
    {
        Scenario with = Read(gate, key, value);

        Assert.That(IdleKeys.Of(with).Select(i => i.Sentence), Is.EqualTo(new[] { $"{key} has no effect: {why}" }));
        Assert.That(Codes(with), Is.EqualTo(Codes(Read(gate, "", ""))));
    }

    // Whatever is told of a shipped scenario with further keys is true of it: all of these together change no bit of its first seconds.
    [TestCase("waveforms/scenarios/walk", 50)]
    [TestCase("waveforms/scenarios/rhythms/atrial", 50)]
    [TestCase("waveforms/scenarios/", 1000, Category = "Slow")]
    public void Of_ShippedScenarioWithFurtherKeys_IsToldOnlyWhereNoBitChanges(string begin, int least)
    {
        int told = 0;
        foreach (string name in Shipped().Where(n => n.StartsWith(begin, StringComparison.Ordinal)))
        {
            var plain = ScenarioReader.ReadFile(Path.Combine(Repository.Root, name));
            Scenario with = plain;
            foreach ((string key, string value, _) in s_keys)
            {
                if (!plain.Sets(AllKeys.Find(key)!) && TryAdd(with, key, value) is Scenario more
                    && IdleKeys.Of(more).Count == IdleKeys.Of(with).Count + 1 && IdleKeys.Of(more).Any(i => i.Key.Name == key))
                {
                    with = more;
                    told++;
                }
            }

            Assert.That(Codes(with, 15), Is.EqualTo(Codes(plain, 15)), $"{name}: {string.Join(", ", IdleKeys.Of(with).Select(i => i.Key.Name))}");
        }

        Assert.That(told, Is.GreaterThan(least), "else it proves little");
    }

    // Null where the key contradicts the rest of the scenario.
    private static Scenario? TryAdd(Scenario scenario, string key, string value)
    {
        try
        {
            return scenario.With([AllKeys.Find(key) is NumberKey number
                ? new KeyValue(number, double.Parse(value, NumberStyles.Float, CultureInfo.InvariantCulture))
                : new KeyValue((ChoiceKey)AllKeys.Find(key)!, value.Trim('"'))]);
        }
        catch (ScenarioException)
        {
            return null;
        }
    }

    [Test]
    public void Of_BurstsThatNeverCome_AreTold() => Assert.That(
        IdleKeys.Of(ScenarioReader.ReadText("[ecg_noise]\nmuscle_burst_per_min = 0\nmuscle_burst_snr_db = 6\n", "s.toml")).Select(i => i.Sentence),
        Is.EqualTo(new[] { "ecg_noise.muscle_burst_snr_db has no effect: ecg_noise.muscle_burst_per_min is 0" }));

    // What comes later is not nothing.
    [TestCase("[ecg_noise]\nslow_motion_snr_db = 6\n[[change]]\nkey = \"movement.activity\"\nat_s = 10\nstep_to = \"walking\"\n")]
    [TestCase("[optics]\nmovement_artefact_ratio = 2\n[[activity]]\nname = \"walking\"\nat_s = 10\n")]
    [TestCase("[movement]\ngesture_g = 2\n[[change]]\nkey = \"movement.gestures_per_min\"\nat_s = 10\nstep_to = 5\n")]
    [TestCase("[ecg_noise]\nmuscle_burst_per_min = 9\n[[change]]\nkey = \"ecg_noise.muscle_burst_uv_rms\"\nat_s = 10\nstep_to = 50\n")]
    public void Of_ThatIsBroughtInLater_IsNothing(string text) => Assert.That(IdleKeys.Of(ScenarioReader.ReadText(text, "s.toml")), Is.Empty);

    [TestCase("[optics]\nmovement_artefact_ratio = 0\n")]
    [TestCase("[movement]\namplitude_g = 0\n")]
    public void Of_SetToNothing_IsNothing(string text) => Assert.That(IdleKeys.Of(ScenarioReader.ReadText(text, "s.toml")), Is.Empty);

    [TestCaseSource(nameof(Shipped))]
    public void Of_ShippedScenario_IsNothing(string name) =>
        Assert.That(IdleKeys.Of(ScenarioReader.ReadFile(Path.Combine(Repository.Root, name))).Select(i => i.Sentence), Is.Empty);

    // Forty seconds at seed 5000; the key goes into the table of its section where there is one, for none may be written twice.
    private static Scenario Read(string gate, string key, string value)
    {
        string own = key.Length == 0 ? "" : $"[{key.Split('.')[0]}]\n{key.Split('.')[1]} = {value}\n";
        string section = own.Split('\n')[0];
        string text = own.Length > 0 && gate.Contains(section, StringComparison.Ordinal)
            ? gate.Replace(section, own.TrimEnd('\n'), StringComparison.Ordinal)
            : gate + "\n" + own;
        return ScenarioReader.ReadText($"[scenario]\nduration_s = 40\nseed = 5000\n{text}", "s.toml");
    }

    // Every code and status word of every channel.
    private static int[] Codes(Scenario scenario, double seconds = double.MaxValue)
    {
        SensorStream stream = scenario.CreateStream();
        long endTick = Math.Min(stream.EndTick, (long)Math.Min(long.MaxValue / 2, seconds * stream.Format.Clock.TicksPerSecond));
        long second = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, second);
        var all = new List<int>();
        while (stream.PositionTick < endTick)
        {
            stream.Read(block, Math.Min(endTick, stream.PositionTick + second));
            foreach (ChannelBlock channel in block.Channels)
            {
                foreach (SampleRun run in channel.Runs)
                {
                    all.AddRange(channel.Codes.Slice(run.Offset, run.Count));
                    for (int i = 0; i < run.Count; i++)
                    {
                        all.Add(channel.Status[run.Offset + i]);
                    }
                }
            }

            while (stream.Truth.TryTake(out _))
            {
            }

            while (stream.Acquisition.TryTake(out _))
            {
            }
        }

        return [.. all];
    }
}
