// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
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

    // Keys that may change and whose models do not follow yet; the test fails when one of them does, so the list can only shrink.
    private static readonly HashSet<string> s_awaited = new(StringComparer.Ordinal)
    {
        "heart.rate_bpm", "heart.respiratory_variability_ms", "heart.slow_variability_ms", "ecg.p_mv", "ecg.q_mv", "ecg.r_mv", "ecg.s_mv",
        "ecg.t_mv", "ecg.pr_ms", "ecg.qrs_ms", "ecg.qtc_ms", "pulse.arrival_ms", "pulse.arrival_spread_ms", "pulse.perfusion_index_percent",
        "pulse.ratio_of_ratios", "pulse.respiratory_amplitude_percent", "pulse.respiratory_baseline_percent", "breathing.rate_per_min",
    };

    // What must be on for a key to show.
    private static readonly Dictionary<string, string> s_companions = new(StringComparer.Ordinal);

    private static IEnumerable<KeyDefinition> Keys => AllKeys.List().Where(ChangingKeys.MayChange);

    [TestCaseSource(nameof(Keys))]
    public void CreateStream_KeyChangesHalfWay_ShowsAfterwardsOnly(KeyDefinition key)
    {
        string head = $"[scenario]\nduration_s = {Seconds}\n" + s_companions.GetValueOrDefault(key.Name, "");
        List<string> still = PerSecond(ScenarioReader.ReadText(head, "a.toml"));
        List<string> changed = PerSecond(Changed(head, key));

        Assert.That(changed.Take(SameUntil), Is.EqualTo(still.Take(SameUntil)), "before the change");
        Assert.That(changed.Skip(DifferentFrom).SequenceEqual(still.Skip(DifferentFrom)), Is.EqualTo(s_awaited.Contains(key.Name)), "after the change");
    }

    // The first value that is allowed here and is not the default.
    private static Scenario Changed(string head, KeyDefinition key)
    {
        string[] values = key switch
        {
            NumberKey n => [Text(n.Default + (0.1 * (n.Maximum - n.Default))), Text(n.Default + (0.1 * (n.Minimum - n.Default))), Text(n.Maximum), Text(n.Minimum)],
            ChoiceKey c => [.. c.Choices.Where(w => w != c.Default).Select(w => $"\"{w}\"")],
            _ => [],
        };
        foreach (string value in values)
        {
            try
            {
                return ScenarioReader.ReadText($"{head}[[change]]\nat_s = {ChangeAt}\nkey = \"{key.Name}\"\nstep_to = {value}\n", "a.toml");
            }
            catch (ScenarioException)
            {
                // Contradicts other defaults; the next one may not.
            }
        }

        throw new InvalidOperationException($"No value of {key.Name} is allowed; it needs a companion.");
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
