// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scenarios;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Keys;

namespace SensorSim.Cli.Tests;

/// <summary><c>explain</c> says of every key what its definition says.</summary>
[TestFixture]
public sealed class ExplainTests
{
    private static IEnumerable<string> Keys => AllKeys.List().Select(k => k.Name);

    private static IEnumerable<string> Tables => TimeLineTables.All.Select(t => t.Name);

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

    [TestCaseSource(nameof(Tables))]
    public void Explain_TableOfTheTimeLine_SaysEveryField(string table)
    {
        Answer answer = Command.Run("explain", table);

        Assert.That((answer.Code, answer.Error), Is.EqualTo((0, "")));
        Assert.That(answer.Out, Does.StartWith($"[[{table}]]\n  {TimeLineTables.Find(table)!.Meaning}\n"));
        foreach (TableField field in TimeLineTables.Find(table)!.Fields)
        {
            Assert.That(answer.Out, Does.Contain($"\n  {field.Name}\n    {field.Meaning}\n").And.Contain($"    allowed: {field.Allowed}\n"));
        }

        using JsonDocument json = JsonDocument.Parse(Command.Run("explain", table, "--json").Out);
        Assert.That(
            json.RootElement.GetProperty("fields").EnumerateArray().Select(f => f.GetProperty("name").GetString()),
            Is.EqualTo(TimeLineTables.Find(table)!.Fields.Select(f => f.Name)));
        Assert.That(Command.Run("explain", $"[[{table}]]").Out, Is.EqualTo(answer.Out));
    }

    [TestCase("heart.rate_bpm", "may change over time ([[change]])")]
    [TestCase("heart.slow_frequency_hz", "fixed for the whole scenario")]
    [TestCase("optics.red_na", "may change over time ([[change]])")]
    public void Explain_Key_SaysWhetherItMayChange(string name, string expected) =>
        Assert.That(Command.Run("explain", name).Out, Does.Contain($"\n  changes: {expected}\n"));

    [TestCase("actvity", "actvity is no key and no section; the nearest is activity")]
    [TestCase("heart.rate", "heart.rate is no key and no section; the nearest is heart.rate_bpm")]
    [TestCase("muscle_snr_db", "muscle_snr_db is no key and no section; the nearest is ecg_noise.muscle_snr_db")]
    [TestCase("hart", "hart is no key and no section; the nearest is heart")]
    public void Explain_Unknown_NamesTheNearest(string name, string expected) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "explain", name), Is.EqualTo(new[] { expected }));
}
