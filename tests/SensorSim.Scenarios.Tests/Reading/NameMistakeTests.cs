// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Names that are wrong. What a line must hold: the project's rule on a user's mistakes (file, line, column, key, what would be right).</summary>
[TestFixture]
public sealed class NameMistakeTests
{
    [TestCase("[heart]\nrate_bpmm = 60\n", "a.toml, line 2, column 1: heart.rate_bpmm is no key; the nearest is heart.rate_bpm")]
    [TestCase("[heart]\n\n  # why\n  rate_bmp = 60\n", "a.toml, line 4, column 3: heart.rate_bmp is no key; the nearest is heart.rate_bpm")]
    [TestCase("[heart]\nrate = 60\n", "a.toml, line 2, column 1: heart.rate is no key; the nearest is heart.rate_bpm")]
    [TestCase("[heart]\narrival_ms = 200\n", "a.toml, line 2, column 1: heart.arrival_ms is no key; the nearest is pulse.arrival_ms")]
    [TestCase("[heart]\nfoo = 1\n", "a.toml, line 2, column 1: heart.foo is no key; the nearest is heart.lf_hf")]
    [TestCase("[heart]\nrate_bpm.x = 1\n", "a.toml, line 2, column 1: heart.rate_bpm.x is no key; the nearest is heart.rate_bpm")]
    [TestCase("[heart]\n\"rate\\u0007bpm\" = 1\n", "a.toml, line 2, column 1: heart.rate?bpm is no key; the nearest is heart.rate_bpm")]
    [TestCase("[requirements]\nr_peak_sensitivity = 1\n", "a.toml, line 2, column 1: requirements.r_peak_sensitivity is no key; the nearest is requirements.r_peak_sensitivity_min")]
    public void ReadText_UnknownKey_NamesPlaceAndNearestKey(string text, string expected) =>
        Assert.That(Mistaken.Line(text), Is.EqualTo(expected));

    [TestCase("[hart]\nrate_bpm = 60\n", "a.toml, line 1, column 2: [hart] is no section; the nearest is [heart]")]
    [TestCase("[heart.slow]\nx = 60\n", "a.toml, line 1, column 2: [heart.slow] is no section; the nearest is [heart]")]
    [TestCase("[[harts]]\nrate_bpm = 60\n", "a.toml, line 1, column 3: [harts] is no section; the nearest is [heart]")]
    [TestCase("[Heart]\nrate_bpm = 60\n", "a.toml, line 1, column 2: [Heart] is no section; the nearest is [heart]")]
    public void ReadText_UnknownSection_NamesPlaceAndNearestSection(string text, string expected) =>
        Assert.That(Mistaken.Line(text), Is.EqualTo(expected));

    [TestCase("rate_bpm = 60\n", "a.toml, line 1, column 1: rate_bpm stands outside of every section; the nearest key is rate_bpm below [heart]")]
    [TestCase("\nheart.rate_bpm = 60\n", "a.toml, line 2, column 1: heart.rate_bpm stands outside of every section; the nearest key is rate_bpm below [heart]")]
    [TestCase("heart = { rate_bpm = 60 }\n", "a.toml, line 1, column 1: heart is a section; write [heart] on a line of its own and its keys below")]
    public void ReadText_KeyOutsideOfSections_SaysWhereItBelongs(string text, string expected) =>
        Assert.That(Mistaken.Line(text), Is.EqualTo(expected));

    [TestCase("[heart]\nrate_bpm = 60\nrate_bpm = 61\n", "a.toml, line 3, column 1: heart.rate_bpm stands twice, first in line 2; keep one")]
    [TestCase("[heart]\nrate_bpm = 60\n\"rate_bpm\" = 61\n", "a.toml, line 3, column 1: heart.rate_bpm stands twice, first in line 2; keep one")]
    [TestCase("[heart]\nrate_bpm = 60\n[ecg]\n[heart]\n", "a.toml, line 4, column 2: [heart] stands twice, first in line 1; put its keys there")]
    [TestCase("[[heart]]\nrate_bpm = 60\n", "a.toml, line 1, column 1: [[heart]] is a list of sections; a section stands once: [heart]")]
    public void ReadText_StandsTwice_NamesBothPlaces(string text, string expected) =>
        Assert.That(Mistaken.Line(text), Is.EqualTo(expected));

    [Test]
    public void ReadText_ManyMistakes_ListsThemInOrderOfPlace()
    {
        var mistakes = Mistaken.In("a = 1\n[hart]\n[heart]\nb = 2\nrate_bpm = -1\n[movement]\nactivity = \"run\"\n");

        Assert.That(mistakes.Select(m => m.Line), Is.EqualTo(new[] { 1, 2, 4, 5, 7 }));
    }

    [Test]
    [CancelAfter(20000)]
    public void ReadText_NameOfAMillionCharacters_AnswersBrieflyAndSoon() =>
        Assert.That(Mistaken.Line("[heart]\n" + new string('a', 1_000_000) + " = 1\n"), Does.Contain("aaa… is no key; the nearest is heart."));
}
