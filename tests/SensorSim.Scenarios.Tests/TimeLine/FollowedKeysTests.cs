// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using SensorSim.Body;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.TimeLine;

/// <summary>A key that a scenario may change is followed by its model: nothing differs before the change, something after it.</summary>
[TestFixture]
public sealed class FollowedKeysTests
{
    private const int Seconds = 40;
    private const int ChangeAt = 20;

    // Beats are laid ahead, and a P wave or a foot belongs to its beat: a little before and after the change is left out.
    private const int SameUntil = ChangeAt - 2;
    private const int DifferentFrom = ChangeAt + 5;

    // What must be on for the keys of a section, or for one key, to show.
    private static readonly Dictionary<string, string> s_companions = new(StringComparer.Ordinal)
    {
        ["ectopy"] = "[ectopy]\nventricular_pattern = \"random\"\nventricular_percent = 20\natrial_pattern = \"random\"\natrial_percent = 50\n",
        ["block"] = "[heart]\nrhythm = \"second_degree_block_type_1\"\n",
        ["block.escape_rate_bpm"] = "[heart]\nrhythm = \"third_degree_block\"\n",
        ["fibrillation"] = "[heart]\nrhythm = \"atrial_fibrillation\"\n",
        ["flutter"] = "[heart]\nrhythm = \"atrial_flutter\"\n",
        ["ventricular_tachycardia"] = "[heart]\nrhythm = \"ventricular_tachycardia\"\n",
        ["pacing"] = "[heart]\nrhythm = \"paced\"\n",
        ["ecg.paced_mv"] = "[heart]\nrhythm = \"paced\"\n",
        ["ecg.paced_qrs_ms"] = "[heart]\nrhythm = \"paced\"\n",
        ["ecg.ventricular_mv"] = "[ectopy]\nventricular_pattern = \"random\"\nventricular_percent = 20\n",
        ["ecg.ventricular_qrs_ms"] = "[ectopy]\nventricular_pattern = \"random\"\nventricular_percent = 20\n",
        ["pulse.ratio_of_ratios"] = "[pulse]\nratio_of_ratios = 0.5\n",
        ["ectopy.ventricular_group_beats"] = "[ectopy]\nventricular_pattern = \"random\"\nventricular_percent = 30\n",
        ["ectopy.group_rate_bpm"] = "[ectopy]\nventricular_pattern = \"random\"\nventricular_percent = 30\nventricular_group_beats = 2\n",
        ["artery"] = "[arrival]\nfrom = \"pressure\"\n",
        ["oxygen.venous_saturation_percent"] = "[oxygen]\nvenous_share_percent = 10\n",
        ["movement.cadence_hz"] = "[movement]\nactivity = \"walking\"\n",
        ["movement.amplitude_g"] = "[movement]\nactivity = \"walking\"\n",
        ["movement.gesture_g"] = "[movement]\ngestures_per_min = 20\n",
        ["movement.tap_g"] = "[movement]\ntaps_per_min = 20\n",
    };

    // Of the body alone: the keys of Sensing get their turn when its sources follow them.
    private static IEnumerable<KeyDefinition> Keys => BodyKeys.All.Where(ChangingKeys.MayChange);

    [TestCaseSource(nameof(Keys))]
    public void CreateStream_KeyChangesHalfWay_ShowsAfterwardsOnly(KeyDefinition key)
    {
        string head = $"[scenario]\nduration_s = {Seconds}\n" + (s_companions.GetValueOrDefault(key.Name) ?? s_companions.GetValueOrDefault(key.Section, ""));
        Scenario steady = ScenarioReader.ReadText(head, "a.toml");
        List<string> still = PerSecond(steady);
        bool shows = false;
        int allowed = 0;
        foreach (Scenario changed in Changed(head, key, steady))
        {
            allowed++;
            List<string> seconds = PerSecond(changed);
            Assert.That(seconds.Take(SameUntil), Is.EqualTo(still.Take(SameUntil)), "before the change");
            shows |= !seconds.Skip(DifferentFrom).SequenceEqual(still.Skip(DifferentFrom));
            if (shows)
            {
                break;
            }
        }

        Assert.That(allowed, Is.Positive, "no value is allowed; the key needs a companion");
        Assert.That(shows, Is.True, "after the change");
    }

    // Values that are allowed here and are not what the key has.
    private static IEnumerable<Scenario> Changed(string head, KeyDefinition key, Scenario steady)
    {
        IEnumerable<string> values = key switch
        {
            NumberKey n => new[] { 0.1, 0.5, 1 }
                .SelectMany(share => new[] { n.Maximum, n.Minimum }.Select(end => steady.Values[n] + (share * (end - steady.Values[n]))))
                .Where(x => x != steady.Values[n]).Select(Text),
            ChoiceKey c => c.Choices.Where(w => w != steady.Values[c]).Select(w => $"\"{w}\""),
            _ => [],
        };
        foreach (string value in values)
        {
            Scenario? scenario = null;
            try
            {
                scenario = ScenarioReader.ReadText($"{head}[[change]]\nat_s = {ChangeAt}\nkey = \"{key.Name}\"\nstep_to = {value}\n", "a.toml");
            }
            catch (ScenarioException)
            {
                // Contradicts other values; the next one may not.
            }

            if (scenario is not null)
            {
                yield return scenario;
            }
        }
    }

    // A hash of the codes and the truth of each second.
    private static List<string> PerSecond(Scenario scenario)
    {
        SensorStream stream = scenario.CreateStream();
        long ticks = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, ticks);
        var seconds = new List<StringBuilder>();
        for (int s = 0; s < Seconds; s++)
        {
            seconds.Add(new StringBuilder());
        }

        for (int s = 0; s < Seconds; s++)
        {
            stream.Read(block, (s + 1L) * ticks);
            foreach (ChannelBlock channel in block.Channels)
            {
                foreach (int code in channel.Codes)
                {
                    seconds[s].Append(code).Append(' ');
                }
            }

            // Truth comes when its beat is finished, which may be seconds later.
            while (stream.Truth.TryTake(out TruthEvent row))
            {
                seconds[(int)Math.Min(Seconds - 1, row.TimeNs / 1_000_000_000)].Append(row.Kind).Append(row.TimeNs).Append(Text(row.Value)).Append('\n');
            }
        }

        return [.. seconds.Select(s => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(s.ToString()))))];
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
