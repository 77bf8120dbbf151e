// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Tests.StudyFiles;

/// <summary>What every key of a study must say of itself, and that the page about studies says the same.</summary>
[TestFixture]
public sealed partial class StudyKeysTests
{
    private static IEnumerable<string> Names => StudyKeys.All.Select(k => k.Name);

    private static string Page { get; } = File.ReadAllText(Path.Combine(Repository.Root, "docs", "studies.md"));

    [TestCaseSource(nameof(Names))]
    public void All_Key_SaysWhatItIs(string name)
    {
        KeyDefinition key = StudyKeys.All.Single(k => k.Name == name);
        Assert.That(key.Meaning, Has.Length.GreaterThan(10).And.EndsWith("."));
        Assert.That(key.Source, Has.Length.GreaterThan(10).And.EndsWith("."));
        Assert.That(key.RangeText, Is.Not.Empty);
        Assert.That(Name().IsMatch(key.Name), key.Name);
        Assert.That(AllKeys.Find(key.Name), Is.Null, "a scenario has no key of that name");
        Assert.That(key.Unit.Length == 0 || key.Name.EndsWith($"_{key.Unit}", StringComparison.Ordinal), key.Name);
    }

    [TestCaseSource(nameof(Names))]
    public void Page_Key_SaysRangeAndDefault(string name)
    {
        KeyDefinition key = StudyKeys.All.Single(k => k.Name == name);
        string line = Page.Split('\n').Single(l => l.StartsWith($"| `{key.Name}` |", StringComparison.Ordinal));
        string[] cells = [.. line.Split('|').Select(c => c.Trim().Trim('`'))];

        Assert.That(cells[2], Is.EqualTo(key.Unit));
        Assert.That(cells[3], Is.EqualTo(key.RangeText));
        Assert.That(cells[4], Is.EqualTo(key.HasDefault ? key.DefaultText : "–"));
    }

    [Test]
    public void All_Names_AreUniqueAndTheirSectionsKnown()
    {
        Assert.That(Names, Is.Unique);
        Assert.That(StudyKeys.All.Select(k => k.Section).Distinct(), Is.SubsetOf(StudyKeys.Sections));
    }

    [GeneratedRegex("^[a-z][a-z0-9_]*\\.[a-z][a-z0-9_]*$")]
    private static partial Regex Name();
}
