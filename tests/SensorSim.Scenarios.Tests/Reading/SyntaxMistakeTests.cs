// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Texts that are not TOML, or TOML in an unusual form. What is TOML: toml.io/en/v1.0.0.</summary>
[TestFixture]
public sealed class SyntaxMistakeTests
{
    [TestCase("[heart\nrate_bpm = 60\n", 1)]
    [TestCase("[heart]\nrate_bpm = \n", 2)]
    [TestCase("[heart]\nrate_bpm 60\n", 2)]
    [TestCase("[heart]\nrate_bpm = 60,5\n", 2)]
    [TestCase("[heart]\nrate_bpm = 60 slow_variability_ms = 3\n", 2)]
    [TestCase("[heart]\nrate_bpm = \"60\n", 2)]
    [TestCase("[heart]\nrate_bpm = 0x1G\n", 2)]
    [TestCase("[heart]\nrate_bpm = 012\n", 2)]
    [TestCase("[heart]\nrate_bpm = 6 0\n", 2)]
    [TestCase("[]\nrate_bpm = 60\n", 1)]
    [TestCase("= 60\n", 1)]
    public void ReadText_NotToml_NamesTheLineAndWhatALineIs(string text, int line)
    {
        ScenarioMistake first = Mistaken.In(text)[0];

        Assert.That(first.Line, Is.EqualTo(line), first.ToString());
        Assert.That(first.Column, Is.GreaterThan(0));
        Assert.That(first.Message, Does.EndWith("a line is [section], key = value or # comment"));
    }

    [TestCase("\0\u0001\u0002\ufffd\ufffd")]
    [TestCase("\u007fELF\u0002\u0001\u0001\0\0\0\0")]
    [TestCase("{\"heart\": {\"rate_bpm\": 60}}")]
    [TestCase("sample,code,status\n0,1,0\n1,2,0\n")]
    public void ReadText_OtherKindsOfFiles_TellsOneMistakeALine(string text)
    {
        var mistakes = Mistaken.In(text);

        Assert.That(mistakes.Select(m => m.Line), Is.Unique);
    }

    [TestCase('[', "")]
    [TestCase('{', "a = ")]
    public void ReadText_NestedWithoutEnd_IsAMistakeAndNoCrash(char bracket, string inside)
    {
        string nested = string.Concat(Enumerable.Repeat(bracket + inside, 100_000));

        Assert.That(Mistaken.Line($"[heart]\nrate_bpm = {nested}\n"), Does.Contain("nested too deep"));
    }

    [TestCase("")]
    [TestCase("\n\n")]
    [TestCase("# nothing but a comment")]
    [TestCase("[heart]\n[ecg]\n")]
    public void ReadText_NothingSet_IsTheDefaults(string text)
    {
        Scenario scenario = ScenarioReader.ReadText(text, "folder/quiet.toml");

        Assert.That(scenario.Title, Is.EqualTo("quiet"));
        Assert.That(scenario.DurationS, Is.EqualTo(60));
        Assert.That(scenario.Seed, Is.EqualTo(1));
        Assert.That(scenario.Requirements, Is.Empty);
    }

    // Bare and quoted keys name the same key; spaces around the dot, the brackets and the equals sign mean nothing.
    [TestCase("[scenario]\r\nduration_s = 2.5 # short\r\nseed = 7\r\n")]
    [TestCase("[scenario]\nduration_s=25e-1\nseed=0x7")]
    [TestCase("[ scenario ]\n  \"duration_s\"   = 2.500\n\t'seed' = +7\n")]
    [TestCase("[\"scenario\"]\nduration_s = 2.5\nseed = 0b111\n")]
    [TestCase("[scenario]\nseed = 7\nduration_s = 2.5")]
    public void ReadText_FormsOfTheSame_ReadTheSame(string text)
    {
        Scenario scenario = ScenarioReader.ReadText(text, "a.toml");

        Assert.That((scenario.DurationS, scenario.Seed), Is.EqualTo((2.5, 7UL)));
    }

    [Test]
    public void ReadText_UnderscoresAndWholeForFraction_AreTaken()
    {
        Scenario scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 1_200\n[optics]\nrate_hz = 100.0\n", "a.toml");

        Assert.That(scenario.DurationS, Is.EqualTo(1200));
        Assert.That(scenario.CreateStream().Format.Channels[1].RateHz, Is.EqualTo(100));
    }
}
