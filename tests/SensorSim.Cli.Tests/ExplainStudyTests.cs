// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;

namespace SensorSim.Cli.Tests;

/// <summary><c>explain</c> says of the keys of a study what their definitions say.</summary>
[TestFixture]
public sealed class ExplainStudyTests
{
    private static IEnumerable<string> Names => StudyKeys.All.Select(k => k.Name);

    [TestCaseSource(nameof(Names))]
    public void Explain_KeyOfAStudy_SaysAll(string name)
    {
        KeyDefinition key = StudyKeys.All.Single(k => k.Name == name);
        Answer answer = Command.Run("explain", name);

        Assert.That((answer.Code, answer.Error), Is.EqualTo((0, "")));
        Assert.That(answer.Out, Does.StartWith(name + "\n").And.Contain(key.Meaning).And.Contain(key.RangeText).And.Contain(key.Source));
        Assert.That(answer.Out, Does.Contain("\n  changes: fixed for the whole study\n"));
        Assert.That(answer.Out, Does.Contain($"  default: {(key.HasDefault ? key.DefaultText : "not set")}\n"));
    }

    [Test]
    public void Explain_Study_ListsAll()
    {
        string[] lines = Command.Run("explain", "study").Out.Split('\n');

        Assert.That(
            lines.Where(l => l.StartsWith('[')),
            Is.EqualTo(new[] { "[study]", "[[vary]]", "[[detector]]", "[failure_point]", "[tuning]" }));
        Assert.That(
            lines.Where(l => l.StartsWith("  ", StringComparison.Ordinal)).Select(l => l.Trim().Split(' ')[0]),
            Is.EqualTo(StudyKeys.All.Select(k => k.Key)));
        using JsonDocument json = JsonDocument.Parse(Command.Run("explain", "study", "--json").Out);
        Assert.That(json.RootElement.GetProperty("keys").EnumerateArray().Select(k => k.GetProperty("name").GetString()), Is.EqualTo(Names));
    }

    [TestCase("vary")]
    [TestCase("[[vary]]")]
    public void Explain_SectionOfAStudy_ListsItsKeys(string section) =>
        Assert.That(Command.Run("explain", section).Out, Does.StartWith("[[vary]]\n  key ").And.Not.Contain("[study]"));

    [TestCase("tunning", "tunning is no key and no section; the nearest is tuning")]
    [TestCase("failure_point.curv", "failure_point.curv is no key and no section; the nearest is failure_point.curve")]
    public void Explain_Unknown_NamesTheNearest(string name, string expected)
    {
        Answer answer = Command.Run("explain", name);
        Assert.That((answer.Code, answer.Error.Contains(expected, StringComparison.Ordinal)), Is.EqualTo((2, true)), answer.Error);
    }
}
