// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Sensors;

namespace SensorSim.Cli.Tests;

/// <summary>What the pages point to is there: files, headings, keys, source files.</summary>
[TestFixture]
public sealed partial class DocsPagesTests : CommandTest
{
    private static string[] Pages { get; } =
        [.. Directory.GetFiles(Path.Combine(Root, "docs"), "*.md"), Path.Combine(Root, "README.md"), Path.Combine(Root, "DEVELOPERS.md")];

    private static IEnumerable<TestCaseData> EachPage() => Pages.Select(p => new TestCaseData(p).SetArgDisplayNames(Path.GetFileName(p)));

    [TestCaseSource(nameof(EachPage))]
    public void Links_OfAPage_LeadToFilesAndHeadings(string page)
    {
        foreach (Match link in Link().Matches(File.ReadAllText(page)))
        {
            string target = link.Groups[1].Value.Length == 0 ? page : Path.Combine(Path.GetDirectoryName(page)!, link.Groups[1].Value);
            Assert.That(Path.Exists(target), $"{link.Value} leads nowhere");
            if (link.Groups[2].Success)
            {
                Assert.That(Anchors(target), Does.Contain(link.Groups[2].Value), $"{link.Value} has no such heading");
            }
        }
    }

    [TestCaseSource(nameof(EachPage))]
    public void Keys_NamedWithTheirSection_Exist(string page)
    {
        HashSet<string> sections = [.. AllKeys.Sections()];
        HashSet<string> keys = [.. AllKeys.List().Concat(CalibrationKeys.All).Select(k => k.Name)];
        Assert.That(
            SectionKey().Matches(File.ReadAllText(page)).Select(m => m.Groups[1].Value)
                .Where(k => sections.Contains(k[..k.IndexOf('.', StringComparison.Ordinal)]) && !IsFile(k) && !keys.Contains(k)),
            Is.Empty);
    }

    [TestCaseSource(nameof(EachPage))]
    public void SourceFiles_OfAPage_Exist(string page)
    {
        string[] sources = [.. new[] { "src", "tests", "benchmarks" }.SelectMany(
            d => Directory.GetFiles(Path.Combine(Root, d), "*.cs", SearchOption.AllDirectories)).Select(f => f.Replace('\\', '/'))];
        Assert.That(
            SourceFile().Matches(File.ReadAllText(page)).Select(m => m.Groups[1].Value)
                .Where(f => !sources.Any(s => s.EndsWith("/" + f, StringComparison.Ordinal) || s.EndsWith("/SensorSim." + f, StringComparison.Ordinal))),
            Is.Empty);
    }

    [Test]
    public void Scenarios_SensorFileExample_IsOne()
    {
        string page = File.ReadAllText(Path.Combine(Root, "docs", "scenarios.md"));
        const string Open = "```toml sensor file\n";
        int begin = page.IndexOf(Open, StringComparison.Ordinal) + Open.Length;

        SensorFile sensor = SensorReader.ReadFile(Write("sensor.toml", page[begin..page.IndexOf("```", begin, StringComparison.Ordinal)]));

        Assert.That(ScenarioReader.ReadText("", "a.toml", sensor).SensorTitle, Is.EqualTo("chest patch"));
    }

    // A section may share its name with a file: subject.json.
    private static bool IsFile(string name) => Path.GetExtension(name) is ".csv" or ".json" or ".toml";

    // As the usual renderers do: lower case, blanks to hyphens, punctuation gone.
    private static HashSet<string> Anchors(string page) => [.. Heading().Matches(File.ReadAllText(page)).Select(
        m => NotInAnchor().Replace(m.Groups[1].Value.ToLowerInvariant(), "").Replace(' ', '-'))];

    [GeneratedRegex(@"\]\((?!https?:)([^)#\s]*)(?:#([^)\s]+))?\)")]
    private static partial Regex Link();

    [GeneratedRegex("`([a-z_]+\\.[a-z0-9_]+)[ `]")]
    private static partial Regex SectionKey();

    [GeneratedRegex("`([A-Za-z0-9_./]+\\.cs)`")]
    private static partial Regex SourceFile();

    [GeneratedRegex("^#+ (.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();

    [GeneratedRegex(@"[^\p{L}\p{N} _-]")]
    private static partial Regex NotInAnchor();
}
