// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Streams;

/// <summary>
/// Random values for all keys at once, often at the ends: refused in clear words, or made into sound samples. With so many knobs most
/// contradict each other somewhere; leaving out the lines that the mistakes name must lead to a scenario that can be made.
/// </summary>
[TestFixture]
public sealed class RandomScenarioTests
{
    private const int Scenarios = 300;
    private const int MostRounds = 12;

    // What a refusal must say beside what is wrong: what would be right.
    private const string WhatIsRight = "at most|at least|common factors|leave out|remove|set all three|; set |the nearest is|; change | to [0-9.]+ %";

    [Test]
    public void CreateStream_RandomValues_GivesSoundSamplesOrClearWords()
    {
        int made = 0;
        int lit = 0;
        int refused = 0;
        for (int i = 0; i < Scenarios; i++)
        {
            string text = RandomText(new Random(i));
            int rounds = 0;
            Scenario? scenario = TryRead(ref text);
            for (; scenario is null; rounds++)
            {
                Assert.That(rounds, Is.LessThan(MostRounds), text);
                scenario = TryRead(ref text);
            }

            refused += rounds > 0 ? 1 : 0;
            made++;
            try
            {
                int[] lowest = StreamCheck.ReadAll(scenario.CreateStream(), hasDamage: HasBitFlips(scenario.Values));
                lit += AssertLit(scenario.Values, lowest[2]);
            }
            catch (Exception e) when (e is not (AssertionException or SuccessException))
            {
                Assert.Fail($"scenario {i}: {e}\n{text}");
            }
        }

        // Every way was taken, or the test says nothing.
        Assert.That(made, Is.EqualTo(Scenarios));
        Assert.That(refused, Is.InRange(100, Scenarios - 10));
        Assert.That(lit, Is.GreaterThan(5));
    }

    // A scenario; or null, and the text without the lines that its mistakes name.
    private static Scenario? TryRead(ref string text)
    {
        try
        {
            return ScenarioReader.ReadText(text, "a.toml");
        }
        catch (ScenarioException e)
        {
            Assert.That(e.Mistakes.Select(m => m.Message), Has.All.Matches(WhatIsRight), text);
            Assert.That(e.Mistakes.Select(m => m.Line), Has.All.GreaterThan(0), text);
            string[] lines = text.Split('\n');
            foreach (ScenarioMistake mistake in e.Mistakes)
            {
                lines[mistake.Line - 1] = "";
            }

            text = string.Join('\n', lines);
            return null;
        }
    }

    // In unsigned channels a value that is not a number looks like darkness. Where light falls without noise, there is no darkness.
    private static int AssertLit(KeyValues values, int lowestInfrared)
    {
        double full = values[OpticsKeys.FullScaleNa];
        double rail = values[OpticsKeys.AmplifierFullNa];
        bool isClear = new OpticalLevels(values, ChannelName.Infrared).AtFootNa(0) > 0.1 * full && (rail == 0 || rail > 0.1 * full)
            && values[OpticsKeys.WhiteNoiseNaRms] == 0 && !values.IsSet(OpticsKeys.WhiteNoiseSnrDb) && !new OpticalNoise(values).IsOn
            && values[OpticsKeys.MovementArtefactRatio] == 0 && values[ContactKeys.LiftOffsPerHour] == 0
            && values[LevelControlKeys.LevelControl] == "off"
            && ConversionKeys.Optics.All.All(k => !values.IsSet(k));
        if (isClear)
        {
            Assert.That(lowestInfrared, Is.GreaterThan(0));
        }

        return isClear ? 1 : 0;
    }

    private static bool HasBitFlips(KeyValues values) =>
        new[] { ConversionKeys.Ecg, ConversionKeys.Optics, ConversionKeys.Accelerometer }.Any(k => values[k.BitFlipsPerMillion] > 0);

    private static string RandomText(Random random)
    {
        var text = new StringBuilder();
        double share = random.NextDouble();
        foreach (IGrouping<string, KeyDefinition> section in AllKeys.List().GroupBy(k => k.Section))
        {
            text.Append(CultureInfo.InvariantCulture, $"[{section.Key}]\n");
            foreach (KeyDefinition key in section)
            {
                if (key.Name == ScenarioKeys.DurationS.Name)
                {
                    text.Append("duration_s = 3\n");
                }
                else if (random.NextDouble() < share && !key.Key.EndsWith("_file", StringComparison.Ordinal) && key != ScenarioKeys.Sensor)
                {
                    text.Append(CultureInfo.InvariantCulture, $"{key.Key} = {Value(key, random)}\n");
                }
            }
        }

        return text.ToString();
    }

    private static string Value(KeyDefinition key, Random random) => key switch
    {
        NumberKey n => Number(n, random).ToString("R", CultureInfo.InvariantCulture),
        ChoiceKey c => $"\"{c.Choices[random.Next(c.Choices.Count)]}\"",
        _ when key == HeartKeys.Beats => "\"normal 800, ventricular 480, normal 1120\"",
        _ when key == OxygenKeys.Table => "\"0.4:100, 0.6:95, 1.0:85\"",
        _ => "\"any\"",
    };

    private static double Number(NumberKey key, Random random)
    {
        double value = random.Next(6) switch
        {
            0 => key.Minimum,
            1 => key.Maximum,
            2 => key.Default,
            3 => key.Minimum + ((key.Maximum - key.Minimum) * Math.Pow(random.NextDouble(), 8)),
            _ => key.Minimum + ((key.Maximum - key.Minimum) * random.NextDouble()),
        };
        return key.IsWhole ? Math.Floor(value) : value;
    }
}
