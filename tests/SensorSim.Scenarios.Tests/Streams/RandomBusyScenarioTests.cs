// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Streams;

/// <summary>
/// The shipped scenario with everything on, with values, changes and settings at random on top: refused in clear words, or made into sound
/// samples that no cut and no copy changes. What a refusal names is left out until the scenario can be made.
/// </summary>
[TestFixture]
public sealed class RandomBusyScenarioTests
{
    private const int MostRounds = 25;
    private const int Seconds = 8;

    private static readonly string[] s_channels = ["ecg", "red", "infrared", "green", "dark", "accel_x", "accel_y", "accel_z"];

    [Test]
    public void CreateStream_RandomOnTopOfAllOn_GivesTheSameSoundSamplesForAnyCut() => Run(0, 60);

    [Test]
    [Category("Slow")]
    public void CreateStream_ThousandsOnTopOfAllOn_GiveTheSameSoundSamplesForAnyCut() => Run(1000, 4000);

    private static void Run(int first, int count)
    {
        int changes = 0;
        int settings = 0;
        for (int i = first; i < first + count; i++)
        {
            var random = new Random(i);
            List<string> tables = Tables(random);
            Scenario scenario = Made(tables);
            changes += scenario.ChangeCount;
            settings += scenario.Settings.Count;
            try
            {
                StreamCheck.ReadAll(scenario.CreateStream(), hasDamage: true, isWhole: !(scenario.Settings.Count > 0));
                AssertNoCutMatters(scenario, random);
            }
            catch (Exception e) when (e is not SuccessException)
            {
                Assert.Fail($"scenario {i}: {e.Message}\n{e.StackTrace}\n{string.Join("", tables)}");
            }
        }

        Assert.That(changes, Is.GreaterThan(count));
        Assert.That(settings, Is.GreaterThan(count));
    }

    // Leaves out the tables and lines that the mistakes name.
    private static Scenario Made(List<string> tables)
    {
        for (int round = 0; ; round++)
        {
            string text = string.Join("", tables);
            Assert.That(round, Is.LessThan(MostRounds), text);
            try
            {
                return ScenarioReader.ReadText(text, "a.toml");
            }
            catch (ScenarioException e)
            {
                Assert.That(e.Mistakes.Select(m => m.Line), Has.All.GreaterThan(0), text);
                Assert.That(e.Mistakes.Select(m => m.Message.Length), Has.All.InRange(10, 400), text);
                foreach (ScenarioMistake mistake in e.Mistakes)
                {
                    Blank(tables, mistake.Line);
                }
            }
        }
    }

    private static void Blank(List<string> tables, int line)
    {
        int seen = 0;
        for (int t = 0; t < tables.Count; t++)
        {
            string[] lines = tables[t].Split('\n');
            if (line <= seen + lines.Length - 1)
            {
                // A table that stands many times goes as a whole, of a section the one line.
                tables[t] = tables[t].StartsWith("[[", StringComparison.Ordinal)
                    ? new string('\n', lines.Length - 1)
                    : string.Join('\n', lines.Select((l, i) => i == line - seen - 1 ? "" : l));
                return;
            }

            seen += lines.Length - 1;
        }
    }

    private static List<string> Tables(Random random)
    {
        KeyValues allOn = ScenarioReader.ReadFile(Path.Combine(Repository.Root, "waveforms", "scenarios", "all-on.toml")).Values;
        double share = 0.3 * random.NextDouble();
        List<string> tables = [$"[scenario]\nduration_s = {Seconds}\nseed = {random.Next()}\n"];
        foreach (IGrouping<string, KeyDefinition> section in AllKeys.List().Where(k => k.Section is not ("scenario" or "sensor" or "requirements")).GroupBy(k => k.Section))
        {
            tables.Add($"[{section.Key}]\n" + string.Concat(section.Select(key => Line(key, allOn, random, share))));
        }

        for (int i = random.Next(8); i > 0; i--)
        {
            tables.Add(Change(random));
        }

        for (int i = random.Next(10); i > 0; i--)
        {
            tables.Add(Setting(random));
        }

        return tables;
    }

    private static string Line(KeyDefinition key, KeyValues allOn, Random random, double share)
    {
        bool isChanged = random.NextDouble() < share;
        string? value = key switch
        {
            NumberKey n when isChanged => Text(Number(n, random)),
            ChoiceKey c when isChanged => $"\"{c.Choices[random.Next(c.Choices.Count)]}\"",
            _ when key == HeartKeys.Beats => isChanged ? "\"normal 800, ventricular 480, normal 1120\"" : null,
            _ when key == OxygenKeys.Table => isChanged ? "\"0.4:100, 0.6:95, 1.0:85\"" : null,
            _ when !allOn.IsSet(key) => null,
            NumberKey n => Text(allOn[n]),
            ChoiceKey c => $"\"{allOn[c]}\"",
            _ => "\"" + Path.Combine(Repository.Root, "waveforms", "noise", "handgrip.csv").Replace('\\', '/') + "\"",
        };
        return value is null ? "" : $"{key.Key} = {value}\n";
    }

    private static string Change(Random random)
    {
        NumberKey[] live = [.. AllKeys.List().OfType<NumberKey>().Where(ChangingKeys.MayChange)];
        NumberKey key = live[random.Next(live.Length)];
        string to = Text(Number(key, random));
        string way = random.Next(4) switch
        {
            0 => $"step_to = {to}\n",
            1 => $"ramp_to = {to}\nover_s = {Text(0.01 + (5 * random.NextDouble()))}\n",
            2 => $"settle_to = {to}\ntime_constant_s = {Text(0.01 + random.NextDouble())}\n",
            _ => $"follow = [[0, {to}], [1, {Text(Number(key, random))}]]\n",
        };
        return $"[[change]]\nat_s = {Text(Seconds * random.NextDouble())}\nkey = \"{key.Name}\"\n{way}";
    }

    private static string Setting(Random random)
    {
        string channel = s_channels[random.Next(s_channels.Length)];
        string setting = SensorSettings.All[random.Next(SensorSettings.All.Count)];
        double value = random.Next(4) == 0 ? 0 : Math.Round(Math.Pow(10, (random.NextDouble() * 3) - 1), 3);
        value = setting == "decimation" ? Math.Floor(value) : value;
        return $"[[setting]]\nat_s = {Text(Math.Round(Seconds * random.NextDouble(), 4))}\nchannel = \"{channel}\"\nsetting = \"{setting}\"\nvalue = {Text(value)}\n";
    }

    private static double Number(NumberKey key, Random random)
    {
        double value = random.Next(5) switch
        {
            0 => key.Minimum,
            1 => key.Maximum,
            2 => key.Minimum + ((key.Maximum - key.Minimum) * Math.Pow(random.NextDouble(), 8)),
            _ => key.Minimum + ((key.Maximum - key.Minimum) * random.NextDouble()),
        };
        return key.IsWhole ? Math.Floor(value) : value;
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static void AssertNoCutMatters(Scenario scenario, Random random)
    {
        string[] whole = Rows(scenario.CreateStream(), [long.MaxValue], 0);
        long second = scenario.CreateStream().Format.Clock.TicksPerSecond;
        long[] cuts = [.. Enumerable.Range(0, 4).Select(_ => 1 + (long)(second * Math.Pow(random.NextDouble(), 3)))];
        Assert.That(Rows(scenario.CreateStream(), cuts, random.Next(200)), Is.EqualTo(whole), $"cuts {string.Join(' ', cuts)}");
    }

    // All that a stream gives, by channel; copied after so many blocks.
    private static string[] Rows(SensorStream stream, long[] cuts, int copyAfter)
    {
        StreamFormat format = stream.Format;
        var channels = new List<string>[format.Channels.Count];
        for (int c = 0; c < channels.Length; c++)
        {
            channels[c] = [];
        }

        var truth = new List<string>();
        long second = format.Clock.TicksPerSecond;
        var block = new SampleBlock(format, second);
        for (int i = 0; stream.PositionTick < stream.EndTick; i++)
        {
            stream = i == copyAfter ? stream.Copy() : stream;
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + Math.Min(second, cuts[i % cuts.Length])));
            for (int c = 0; c < channels.Length; c++)
            {
                ChannelBlock samples = block.Channels[c];
                foreach (SampleRun run in samples.Runs)
                {
                    for (int k = 0; k < run.Count; k++)
                    {
                        channels[c].Add($"{format.Channels[c].Name} {run.FirstIndex + k} {samples.Codes[run.Offset + k]} {samples.Status[run.Offset + k]}");
                    }
                }
            }

            while (stream.Truth.TryTake(out TruthEvent row))
            {
                truth.Add($"{row.Channel} {row.Kind} {row.TimeNs} {BitConverter.DoubleToInt64Bits(row.Value)} {row.BeatId}");
            }

            Assert.That(stream.Acquisition.OverflowCount, Is.Zero);
            while (stream.Acquisition.TryTake(out _))
            {
            }
        }

        return [.. channels.SelectMany(c => c), .. truth.Where(t => long.Parse(t.Split(' ')[2], CultureInfo.InvariantCulture) < Seconds * 1_000_000_000L)];
    }
}
