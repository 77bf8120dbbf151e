// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Values of the wrong kind or out of range.</summary>
[TestFixture]
public sealed class ValueMistakeTests
{
    [TestCase("\"60\"", "\"60\" must be a number, 20 to 250 bpm")]
    [TestCase("true", "true must be a number, 20 to 250 bpm")]
    [TestCase("[60, 61]", "[60, 61] must be a number, 20 to 250 bpm")]
    [TestCase("{ a = 1 }", "{ a = 1 } must be a number, 20 to 250 bpm")]
    [TestCase("2026-01-01", "2026-01-01 must be a number, 20 to 250 bpm")]
    [TestCase("-60", "-60 is outside of 20 to 250 bpm")]
    [TestCase("251", "251 is outside of 20 to 250 bpm")]
    [TestCase("19.999", "19.999 is outside of 20 to 250 bpm")]
    [TestCase("nan", "NaN is outside of 20 to 250 bpm")]
    [TestCase("-inf", "-Infinity is outside of 20 to 250 bpm")]
    [TestCase("1e400", "Infinity is outside of 20 to 250 bpm")]
    [TestCase("[\n60,\n61]", "[… must be a number, 20 to 250 bpm")]
    public void ReadText_WrongNumber_SaysWhatIsAllowed(string value, string expected) => Assert.That(
        Mistaken.Line($"[heart]\nrate_bpm = {value}\n"), Is.EqualTo($"a.toml, line 2, column 12: heart.rate_bpm = {expected}"));

    [TestCase("100.5", "100.5 must be a whole number, 20 to 1000 Hz")]
    [TestCase("19", "19 is outside of 20 to 1000 Hz")]
    [TestCase("\"fast\"", "\"fast\" must be a whole number, 20 to 1000 Hz")]
    public void ReadText_WrongWholeNumber_SaysWhatIsAllowed(string value, string expected) => Assert.That(
        Mistaken.Line($"[optics]\nrate_hz = {value}\n"), Is.EqualTo($"a.toml, line 2, column 11: optics.rate_hz = {expected}"));

    [TestCase("\"runing\"", "\"runing\" must be one of \"rest\", \"walking\", \"running\"; the nearest is \"running\"")]
    [TestCase("\"Rest\"", "\"Rest\" must be one of \"rest\", \"walking\", \"running\"; the nearest is \"rest\"")]
    [TestCase("3", "3 must be one of \"rest\", \"walking\", \"running\"")]
    public void ReadText_WrongChoice_ListsTheChoices(string value, string expected) => Assert.That(
        Mistaken.Line($"[movement]\nactivity = {value}\n"), Is.EqualTo($"a.toml, line 2, column 12: movement.activity = {expected}"));

    [TestCase("5", "5 must be text on one line, up to 200 characters")]
    [TestCase("\"\"\"a\nb\"\"\"", "\"\"\"a… must be text on one line, up to 200 characters")]
    [TestCase("\"a\\nb\"", "\"a\\nb\" must be text on one line, up to 200 characters")]
    public void ReadText_WrongText_SaysWhatIsAllowed(string value, string expected) => Assert.That(
        Mistaken.Line($"[scenario]\ntitle = {value}\n"), Is.EqualTo($"a.toml, line 2, column 9: scenario.title = {expected}"));

    [TestCase(200, true)]
    [TestCase(201, false)]
    public void ReadText_TitleOfLength_AcceptsUpTo200(int length, bool isAccepted)
    {
        string text = $"[scenario]\ntitle = \"{new string('x', length)}\"\n";

        Assert.That(() => ScenarioReader.ReadText(text, "a.toml"), isAccepted ? Throws.Nothing : Throws.TypeOf<ScenarioException>());
    }

    // 2^53 - 1 is the largest whole number below which every one is a double (IEEE 754, 53-bit significand).
    [TestCase("9007199254740991", true)]
    [TestCase("9007199254740992", false)]
    [TestCase("9223372036854775807", false)]
    [TestCase("9223372036854775808", false)]
    [TestCase("0.5", false)]
    public void ReadText_Seed_IsExactOrRefused(string seed, bool isAccepted)
    {
        if (isAccepted)
        {
            Assert.That(ScenarioReader.ReadText($"[scenario]\nseed = {seed}\n", "a").Seed, Is.EqualTo(9007199254740991UL));
        }
        else
        {
            Assert.That(Mistaken.Line($"[scenario]\nseed = {seed}\n"), Does.Contain("line 2"));
        }
    }
}
