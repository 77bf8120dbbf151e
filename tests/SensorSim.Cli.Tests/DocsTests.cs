// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;

namespace SensorSim.Cli.Tests;

/// <summary><c>docs/cli.md</c> and <c>docs/scenarios.md</c> say what the program does.</summary>
[TestFixture]
public sealed partial class DocsTests : CommandTest
{
    private static readonly string[] s_verbs = ["run", "record", "replay", "detect", "score", "sweep", "compare", "challenge", "vectors", "selftest", "schema", "explain"];

    private static string Cli { get; } = File.ReadAllText(Path.Combine(Root, "docs", "cli.md"));

    private static string Scenarios { get; } = File.ReadAllText(Path.Combine(Root, "docs", "scenarios.md"));

    [Test]
    public void Cli_Verbs_AreThoseOfTheProgram()
    {
        string help = Command.Run("--help").Out;
        string[] listed = [.. help[help.IndexOf("Commands:\n", StringComparison.Ordinal)..].Split('\n').Skip(1)
            .TakeWhile(l => l.StartsWith("  ", StringComparison.Ordinal)).Select(l => l.Trim().Split(' ')[0])];

        Assert.That(listed, Is.EqualTo(s_verbs));
        Assert.That(Heading().Matches(Cli).Select(m => m.Groups[1].Value), Is.EqualTo(s_verbs.Prepend("Exit codes")));
    }

    [TestCaseSource(nameof(s_verbs))]
    public void Cli_OptionsOfAVerb_AreThoseOfItsHelp(string verb)
    {
        string help = Command.Run(verb, "--help").Out;
        IEnumerable<string> real = HelpOption().Matches(help).Select(m => m.Groups[1].Value).Where(o => o != "--help");

        Assert.That(Row().Matches(Section(verb)).Select(m => m.Groups[1].Value), Is.EqualTo(real));
    }

    [Test]
    public void Cli_ExitCodes_AreAll()
    {
        int[] real = [ExitCodes.Done, ExitCodes.NotMet, ExitCodes.WrongInput, ExitCodes.EnvironmentFailed, ExitCodes.Interrupted];

        Assert.That(
            CodeRow().Matches(Section("Exit codes")).Select(m => int.Parse(m.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture)),
            Is.EqualTo(real));
    }

    [TestCase("run")]
    [TestCase("record")]
    [TestCase("detect")]
    [TestCase("score")]
    public void Cli_FilesOfAVerb_AreNamed(string verb)
    {
        string scenario = Scenario();
        Command.Run("run", scenario, "--out", At("run"));
        Command.Run("record", scenario, "--out", At("record"));
        Command.Run("detect", At("record"), "--out", At("detect"));
        Command.Run("score", At("run", "truth.csv"), At("run", "detections.csv"), "--out", At("score"));

        string text = Section(verb);
        Assert.That(Contents(At(verb)).Keys.Where(name => !text.Contains($"`{name}`", StringComparison.Ordinal)), Is.Empty);
    }

    [Test]
    public void Scenarios_Table_HoldsEveryKeyOnce()
    {
        var listed = new List<string>();
        foreach (Match row in SectionRow().Matches(Scenarios))
        {
            listed.AddRange(Word().Matches(row.Groups[2].Value).Select(m => $"{row.Groups[1].Value}.{m.Groups[1].Value}"));
        }

        Assert.That(listed, Is.EqualTo(AllKeys.List().Select(k => k.Name)));
    }

    [Test]
    public void Scenarios_ListOfShippedOnes_NamesEveryFileOnce()
    {
        int begin = Scenarios.IndexOf("## Shipped scenarios\n", StringComparison.Ordinal);
        string text = Scenarios[begin..Scenarios.IndexOf("\n## ", begin, StringComparison.Ordinal)];
        string[] files = Directory.GetFiles(Path.Combine(Root, "waveforms", "scenarios"), "*.toml", SearchOption.AllDirectories);

        Assert.That(FileName().Matches(text).Select(m => m.Groups[1].Value), Is.EquivalentTo(files.Select(Path.GetFileName)));
    }

    [TestCase("rhythms")]
    [TestCase("disturbances")]
    public void Gallery_HasEveryScenarioWithItsPicture(string name)
    {
        string text = File.ReadAllText(Path.Combine(Root, "docs", name + ".md"));
        string[] scenarios = [.. Directory.GetFiles(Path.Combine(Root, "waveforms", "scenarios", name)).Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];
        string[] pictures = [.. Directory.GetFiles(Path.Combine(Root, "docs", "images", name)).Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];

        Assert.That(pictures, Is.EqualTo(scenarios));
        Assert.That(LinkedScenario().Matches(text).Select(m => m.Groups[1].Value).Order(StringComparer.Ordinal), Is.EqualTo(scenarios));
        Assert.That(ShownPicture().Matches(text).Select(m => m.Groups[1].Value).Order(StringComparer.Ordinal), Is.EqualTo(scenarios));
    }

    [Test]
    public void Scenarios_TableOfRhythms_NamesEveryOne()
    {
        int begin = Scenarios.IndexOf("## Rhythms\n", StringComparison.Ordinal);
        string text = Scenarios[begin..Scenarios.IndexOf("**Lists of beats.**", StringComparison.Ordinal)]
            .Replace("…_type_2", "second_degree_block_type_2", StringComparison.Ordinal);

        Assert.That(RhythmWord().Matches(text).Select(m => m.Groups[1].Value), Is.EquivalentTo(HeartKeys.Rhythm.Choices));
    }

    [Test]
    public void Scenarios_Example_IsAScenario()
    {
        Scenario scenario = ScenarioReader.ReadText(Fence("toml"), "example.toml");

        Assert.That((scenario.Title, scenario.Seed), Is.EqualTo(("after the stairs", 7UL)));
        Assert.That(scenario.Requirements.Count(), Is.EqualTo(1));
    }

    [Test]
    public void Scenarios_TimeLineExample_GoesAsItSays()
    {
        Scenario scenario = ScenarioReader.ReadText(Fence("toml time line"), "example.toml");
        Course rate = scenario.Values.Course((NumberKey)AllKeys.Find("heart.rate_bpm")!);
        Course breathing = scenario.Values.Course((NumberKey)AllKeys.Find("breathing.rate_per_min")!);

        Assert.That((scenario.ActivityCount, scenario.ChangeCount), Is.EqualTo((1, 3)));
        Assert.That(rate.Value(59), Is.EqualTo(62));

        // 41 % of the reserve of 180 - 62 bpm, after six time constants.
        Assert.That(rate.Value(239.9), Is.EqualTo(62 + (0.41 * 118)).Within(0.2));
        Assert.That(rate.Value(415), Is.EqualTo(90).Within(1e-9));
        Assert.That(rate.Value(430 + 40), Is.EqualTo(62 + (28 / Math.E)).Within(0.01));
        Assert.That(new[] { 310.0, 350, 410 }.Select(breathing.Value), Is.EqualTo(new[] { 11.5, 8, 15 }).Within(1e-9));
    }

    [Test]
    public void Scenarios_SettingsExample_HasItsChanges()
    {
        Scenario scenario = ScenarioReader.ReadText(Fence("toml settings"), "example.toml");

        Assert.That(scenario.Settings.Select(s => (s.Setting, s.ValueMilli)), Is.EqualTo(
            Enumerable.Repeat((SensorSetting.Decimation, 0), 3).Concat(Enumerable.Repeat((SensorSetting.Decimation, 1000), 3))));
        Assert.That(SettingRow().Matches(Scenarios).Select(m => m.Groups[1].Value).Intersect(SensorSettings.All), Is.EqualTo(SensorSettings.All));
    }

    [Test]
    public void Scenarios_TableOfActivities_NamesThemInOrder() => Assert.That(
        ActivityRow().Matches(Scenarios[Scenarios.IndexOf("## Activities", StringComparison.Ordinal)..Scenarios.IndexOf("## Drawing", StringComparison.Ordinal)])
            .Select(m => m.Groups[1].Value),
        Is.EqualTo(Activities.All.Select(a => a.Name)));

    [Test]
    public void Scenarios_TextOfTheTimeLine_NamesEveryField()
    {
        IEnumerable<string> fields = TimeLineTables.All.SelectMany(t => t.Fields).Select(f => f.Name).Distinct();

        Assert.That(fields.Where(f => !Scenarios.Contains($"`{f}`", StringComparison.Ordinal)), Is.Empty);
    }

    [Test]
    public void Scenarios_MistakenExample_IsAnsweredAsShown()
    {
        string path = Write("mistaken.toml", Fence("toml mistaken"));

        string[] messages = Command.Refused(ExitCodes.WrongInput, "run", path);

        Assert.That(messages.Select(m => m.Replace(path, "FILE", StringComparison.Ordinal)), Is.EqualTo(Fence("text").TrimEnd().Split('\n')));
    }

    [Test]
    public void Docs_KeysInTheText_Exist()
    {
        HashSet<string> known = [.. AllKeys.List().SelectMany(k => new[] { k.Name, k.Key }), .. TimeLineTables.All.SelectMany(t => t.Fields).Select(f => f.Name), .. SensorSettings.All];
        string text = Scenarios[..Scenarios.IndexOf("## Sections", StringComparison.Ordinal)];

        Assert.That(Word().Matches(text).Select(m => m.Groups[1].Value).Where(w => w.Contains('_', StringComparison.Ordinal) && !known.Contains(w)), Is.Empty);
    }

    private static string Section(string heading)
    {
        int begin = Cli.IndexOf($"\n## {heading}\n", StringComparison.Ordinal);
        int end = Cli.IndexOf("\n## ", begin + 1, StringComparison.Ordinal);
        return end < 0 ? Cli[begin..] : Cli[begin..end];
    }

    private static string Fence(string language)
    {
        string open = $"```{language}\n";
        int begin = Scenarios.IndexOf(open, StringComparison.Ordinal) + open.Length;
        return Scenarios[begin..Scenarios.IndexOf("```", begin, StringComparison.Ordinal)];
    }

    [GeneratedRegex(@"\(\.\./waveforms/scenarios/\w+/([\w-]+)\.toml\)")]
    private static partial Regex LinkedScenario();

    [GeneratedRegex(@"\(images/\w+/([\w-]+)\.png\)")]
    private static partial Regex ShownPicture();

    [GeneratedRegex("^## (.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();

    [GeneratedRegex(@"^  (?:-\?, -h, )?(--[a-z-]+)", RegexOptions.Multiline)]
    private static partial Regex HelpOption();

    [GeneratedRegex(@"^\| `(--[a-z-]+)", RegexOptions.Multiline)]
    private static partial Regex Row();

    [GeneratedRegex(@"^\| (\d+) \|", RegexOptions.Multiline)]
    private static partial Regex CodeRow();

    [GeneratedRegex(@"^\| `\[([a-z_]+)\]` \| [^|]+ \| (.+) \|$", RegexOptions.Multiline)]
    private static partial Regex SectionRow();

    [GeneratedRegex(@"^\| `([a-z]+)` \|", RegexOptions.Multiline)]
    private static partial Regex ActivityRow();

    [GeneratedRegex(@"^\| `([a-z_]+)` \|", RegexOptions.Multiline)]
    private static partial Regex SettingRow();

    [GeneratedRegex("`([a-z0-9-]+\\.toml)`")]
    private static partial Regex FileName();

    [GeneratedRegex("`\"([a-z0-9_]+)\"`")]
    private static partial Regex RhythmWord();

    [GeneratedRegex("`([a-z][a-z0-9_.]*)`")]
    private static partial Regex Word();
}
