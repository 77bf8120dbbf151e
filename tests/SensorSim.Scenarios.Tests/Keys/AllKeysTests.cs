// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Tests.Keys;

/// <summary>What every key must say of itself, because reader, <c>explain</c> and docs print it.</summary>
[TestFixture]
public sealed partial class AllKeysTests
{
    // How a unit is written at the end of a key (project rule: keys carry units).
    private static readonly Dictionary<string, string> s_suffixes = new(StringComparer.Ordinal)
    {
        ["s"] = "_s",
        ["ms"] = "_ms",
        ["µs"] = "_us",
        ["Hz"] = "_hz",
        ["bpm"] = "_bpm",
        ["breaths/min"] = "_per_min",
        ["mV"] = "_mv",
        ["µV"] = "_uv",
        ["µV/s"] = "_uv_per_s",
        ["V"] = "_v",
        ["kΩ"] = "_kohm",
        ["pF"] = "_pf",
        ["1/h"] = "_per_h",
        ["nA"] = "_na",
        ["mA"] = "_ma",
        ["°C"] = "_c",
        ["lux"] = "_lux",
        ["nA/lux"] = "na_per_lux",
        ["dB"] = "_db",
        ["ppm"] = "_ppm",
        ["%"] = "_percent",
        ["g"] = "_g",
        ["µg/√Hz"] = "_ug_per_rthz",
        ["bit"] = "bits",
        ["years"] = "_years",
        ["m"] = "_m",
        ["mm"] = "_mm",
        ["nm"] = "_nm",
        ["h"] = "_h",
        ["°"] = "_deg",
        ["m/s"] = "_m_per_s",
        ["ms/bpm"] = "_ms_per_bpm",
        ["kPa"] = "_kpa",
        ["mmHg"] = "_mmhg",
        ["1/mmHg"] = "_per_mmhg",
        ["mmHg/week"] = "_mmhg_per_week",
        ["waves/min"] = "_per_min",
        ["1/min"] = "_per_min",
        ["beats"] = "_beats",
        ["points"] = "_points",
        ["codes"] = "_codes",
        ["mg"] = "_mg",
        ["1/million"] = "_per_million",
        ["packets"] = "_packets",
        ["samples"] = "_samples",
    };

    private static IEnumerable<KeyDefinition> Keys => AllKeys.List();

    [Test]
    public void List_Names_AreUniqueAndSnakeCase()
    {
        Assert.That(Keys.Select(k => k.Name), Is.Unique);
        Assert.That(Keys.Select(k => k.Name).Where(n => !Name().IsMatch(n)), Is.Empty);
    }

    [TestCaseSource(nameof(Keys))]
    public void List_Key_SaysWhatItIs(KeyDefinition key)
    {
        Assert.That(key.Meaning, Has.Length.GreaterThan(10).And.EndsWith("."));
        Assert.That(key.Source, Has.Length.GreaterThan(10).And.EndsWith("."));
        Assert.That((key.Meaning + key.Source + key.Unit).Any(char.IsControl), Is.False);
        Assert.That(key.RangeText, Is.Not.Empty);
        Assert.That(AllKeys.Find(key.Name), Is.SameAs(key));
        Assert.That(AllKeys.Sections(), Does.Contain(key.Section));
    }

    [TestCaseSource(nameof(Keys))]
    public void List_KeyWithUnit_CarriesTheUnitInItsName(KeyDefinition key)
    {
        if (key.Unit.Length == 0)
        {
            Assert.That(s_suffixes.Values.Where(s => key.Key.EndsWith(s, StringComparison.Ordinal)), Is.Empty, "a unit in the name only");
            return;
        }

        // What a figure of such a unit is (rms, peak to peak, a limit) may follow the unit.
        string suffix = s_suffixes[key.Unit];
        Assert.That(key.Key, Does.Match($"{suffix}(_rms|_pp|_max)?$"));
    }

    [Test]
    public void List_Numbers_HaveADefaultInAFiniteRange()
    {
        foreach (NumberKey key in Keys.OfType<NumberKey>())
        {
            Assert.That(double.IsFinite(key.Minimum) && double.IsFinite(key.Maximum), key.Name);
            Assert.That(key.Default, Is.InRange(key.Minimum, key.Maximum), key.Name);
            Assert.That(!key.IsWhole || (key.Default == Math.Truncate(key.Default) && key.Minimum == Math.Truncate(key.Minimum)), key.Name);
        }

        Assert.That(Keys.OfType<ChoiceKey>().Where(k => !k.Choices.Contains(k.Default)), Is.Empty);
    }

    [Test]
    public void Sections_KeysOfOne_StandTogether()
    {
        // A section that is interrupted in the list would be printed twice.
        string[] order = [.. Keys.Select(k => k.Section)];
        int changes = order.Zip(order.Skip(1)).Count(p => p.First != p.Second);

        Assert.That(changes + 1, Is.EqualTo(AllKeys.Sections().Count));
    }

    [Test]
    public void Find_Unknown_IsNull() => Assert.That(AllKeys.Find("heart.rate"), Is.Null);

    [TestCase("heart.rate_bpm", "heart.rate_bpm")]
    [TestCase("rate_hzz", "ecg_amplifier.rate_hz")]
    [TestCase("pulse.rate_bpm", "heart.rate_bpm")]
    [TestCase("heart.rate", "heart.rate_bpm")]
    public void Nearest_Name_IsTheKeyMeant(string name, string expected) =>
        Assert.That(AllKeys.Nearest(name).Name, Is.EqualTo(expected));

    [TestCase("")]
    [TestCase(".")]
    [TestCase("heart.")]
    [TestCase(".rate_bpm")]
    [TestCase("nothing.like.this")]
    public void Nearest_OddName_IsAKeyAllTheSame(string name) => Assert.That(AllKeys.List(), Does.Contain(AllKeys.Nearest(name)));

    [Test]
    public void Requirements_Keys_AreOffUnlessSet()
    {
        Assert.That(RequirementKeys.All.Select(r => r.Key.HasDefault), Is.All.False);
        Assert.That(RequirementKeys.All.Select(r => r.Key.Section), Is.All.EqualTo("requirements"));
        Assert.That(RequirementKeys.All.Select(r => (r.Kind, r.Figure)), Is.Unique);
    }

    [GeneratedRegex("^[a-z][a-z0-9_]*\\.[a-z][a-z0-9_]*$")]
    private static partial Regex Name();
}
