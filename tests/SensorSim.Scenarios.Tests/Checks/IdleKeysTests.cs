// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Checks;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Checks;

/// <summary>A key that is told to have no effect has none, to the bit; where what it needs is there, it has one and nothing is told.</summary>
[TestFixture]
public sealed class IdleKeysTests
{
    private static IEnumerable<TestCaseData> Keys() => IdleKeyRows.Alone.Select(k => new TestCaseData(k.Key, k.Value, k.Gate).SetArgDisplayNames(k.Key));

    private static IEnumerable<TestCaseData> KeysBeside() =>
        IdleKeyRows.Beside.Select(k => new TestCaseData(k.Key, k.Value, k.Beside, k.Why).SetArgDisplayNames(k.Key, k.Beside.Replace('\n', ' ')));

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

    [TestCaseSource(nameof(KeysBeside))]
    public void Of_KeyBesideWhatDoesNotBringItIn_IsToldAndChangesNoBit(string key, string value, string gate, string why)
    {
        Scenario with = Read(gate, key, value);

        Assert.That(IdleKeys.Of(with).Select(i => i.Sentence), Does.Contain($"{key} has no effect: {why}"));
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
            foreach ((string key, string value, _) in IdleKeyRows.Alone)
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
        Is.EqualTo(new[] { "ecg_noise.muscle_burst_snr_db has no effect: ecg_noise.muscle_burst_per_min is 0; set it" }));

    // What comes later is not nothing.
    [TestCase("[ecg_noise]\nslow_motion_snr_db = 6\n[[change]]\nkey = \"movement.activity\"\nat_s = 10\nstep_to = \"walking\"\n")]
    [TestCase("[optics]\nmovement_artefact_ratio = 2\n[[activity]]\nname = \"walking\"\nat_s = 10\n")]
    [TestCase("[movement]\ngesture_g = 2\n[[change]]\nkey = \"movement.gestures_per_min\"\nat_s = 10\nstep_to = 5\n")]
    [TestCase("[ecg_noise]\nmuscle_burst_per_min = 9\n[[change]]\nkey = \"ecg_noise.muscle_burst_uv_rms\"\nat_s = 10\nstep_to = 50\n")]
    [TestCase("[pacing]\nrate_bpm = 75\n[[change]]\nkey = \"heart.rhythm\"\nat_s = 10\nstep_to = \"paced\"\n")]
    [TestCase("[block]\nescape_rate_bpm = 35\n[[change]]\nkey = \"heart.rhythm\"\nat_s = 10\nstep_to = \"third_degree_block\"\n")]
    [TestCase("[electrodes]\nsteps_per_min = 9\nstep_mv_rms = 0\n[[change]]\nkey = \"electrodes.step_mv_rms\"\nat_s = 10\nstep_to = 2\n")]
    [TestCase("[ambient]\nlevel_na = 900\nhand_per_min = 9\nhand_depth_percent = 0\n[[change]]\nkey = \"ambient.hand_depth_percent\"\nat_s = 10\nstep_to = 50\n")]
    [TestCase("[movement]\nactivity = \"walking\"\namplitude_g = 0\n[optics]\nmovement_artefact_ratio = 2\n[[change]]\nkey = \"movement.amplitude_g\"\nat_s = 10\nstep_to = 0.5\n")]
    [TestCase("[mains]\nsupply_v = 120\n[[change]]\nkey = \"mains.lead_coupling_pf\"\nat_s = 10\nstep_to = 1\n")]
    public void Of_ThatIsBroughtInLater_IsNothing(string text) => Assert.That(IdleKeys.Of(ScenarioReader.ReadText(text, "s.toml")), Is.Empty);

    [TestCase("[optics]\nmovement_artefact_ratio = 0\n")]
    [TestCase("[movement]\namplitude_g = 0\n")]
    public void Of_SetToNothing_IsNothing(string text) => Assert.That(IdleKeys.Of(ScenarioReader.ReadText(text, "s.toml")), Is.Empty);

    // Who writes down what holds anyway asks for nothing.
    [TestCase("[pacing]\nmode = \"ventricular\"\nspike_ms = 0.5\n")]
    [TestCase("[movement]\ncadence_hz = 1.9\n")]
    [TestCase("[artery]\nwall_mm = 0.5\n[second_device]\nflags = \"all\"\n")]
    public void Of_SetToItsDefault_IsNothing(string text) => Assert.That(IdleKeys.Of(ScenarioReader.ReadText(text, "s.toml")), Is.Empty);

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

    // Every code and status word of every channel, every row of truth, everything told of the acquisition, clocks and delays.
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

            while (stream.Truth.TryTake(out TruthEvent row))
            {
                all.Add(row.GetHashCode());
            }

            while (stream.Acquisition.TryTake(out AcquisitionEvent told))
            {
                all.Add(told.GetHashCode());
            }
        }

        all.AddRange(stream.Clocks.Select(c => c.GetHashCode()));
        all.AddRange(stream.Format.Channels.Select(c => c.DeclaredDelayNs.GetHashCode()));
        return [.. all];
    }
}
