// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Checks;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
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
    private static int[] Codes(Scenario scenario)
    {
        SensorStream stream = scenario.CreateStream();
        long second = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, second);
        var all = new List<int>();
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + second));
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
