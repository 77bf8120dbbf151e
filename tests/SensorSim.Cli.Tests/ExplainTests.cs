// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scenarios;
using SensorSim.Signals.Keys;

namespace SensorSim.Cli.Tests;

/// <summary><c>explain</c> says of every key what its definition says.</summary>
[TestFixture]
public sealed class ExplainTests
{
    private static IEnumerable<string> Keys => AllKeys.List().Select(k => k.Name);

    private static IEnumerable<string> Sections => AllKeys.Sections();

    [TestCaseSource(nameof(Keys))]
    public void Explain_Key_SaysAll(string name)
    {
        KeyDefinition key = AllKeys.Find(name)!;

        Answer answer = Command.Run("explain", name);

        Assert.That((answer.Code, answer.Error), Is.EqualTo((0, "")));
        Assert.That(answer.Out, Does.StartWith(name + "\n").And.Contain(key.Meaning).And.Contain(key.RangeText).And.Contain(key.Source));
        Assert.That(answer.Out, Does.Contain($"  unit:    {(key.Unit.Length == 0 ? "none" : key.Unit)}\n"));
        Assert.That(answer.Out, Does.Contain($"  default: {(key.HasDefault ? key.DefaultText : "not set")}\n"));
    }

    [TestCaseSource(nameof(Sections))]
    public void Explain_Section_ListsItsKeysOnly(string section)
    {
        string[] lines = Command.Run("explain", section).Out.Split('\n');

        Assert.That(lines[0], Is.EqualTo($"[{section}]"));
        Assert.That(
            lines.Where(l => l.StartsWith("  ", StringComparison.Ordinal)).Select(l => l.Trim().Split(' ')[0]),
            Is.EqualTo(AllKeys.List().Where(k => k.Section == section).Select(k => k.Key)));
    }

    [Test]
    public void Explain_Json_HoldsEveryKey()
    {
        Answer answer = Command.Run("explain", "--json");
        using JsonDocument json = JsonDocument.Parse(answer.Out);

        Assert.That(json.RootElement.GetProperty("keys").EnumerateArray().Select(k => k.GetProperty("name").GetString()), Is.EqualTo(Keys));
    }

    [TestCase("heart.rate", "heart.rate is no key and no section; the nearest is heart.rate_bpm")]
    [TestCase("hart", "hart is no key and no section; the nearest is heart")]
    public void Explain_Unknown_NamesTheNearest(string name, string expected) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "explain", name), Is.EqualTo(new[] { expected }));
}
