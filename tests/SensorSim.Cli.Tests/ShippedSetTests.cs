// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;

namespace SensorSim.Cli.Tests;

/// <summary>The set under <c>waveforms/vectors</c>: what it covers, how large it is, that it can be made again, and that pages tell of it what it says.</summary>
[TestFixture]
public sealed partial class ShippedSetTests : CommandTest
{
    // Kinds that the library gives and that no requirement of the set judges, each with why.
    private static readonly Dictionary<MarkKind, string> s_unjudged = new()
    {
        [MarkKind.RegularRhythm] = "ends a flag that a case of a minute does not see end",
        [MarkKind.PressureTrendMmhg] = "needs weeks",
    };

    // Which levels a class of disturbance has in the set; where one is missing, why.
    private static readonly Dictionary<string, string> s_missingLevels = new(StringComparer.Ordinal)
    {
        ["tall T wave"] = "a limit of a standard: at it or not",
        ["rate step"] = "a limit of a standard: at it or not",
        ["calibration"] = "is valid (pass: case pressure) or not",
        ["drift"] = "below the limit: still-finger; beyond it the amplifier is blocked: overload",
        ["overload"] = "blocks, or is none",
        ["standstill"] = "stands still, or does not",
        ["settings"] = "a change is one",
        ["flicker"] = "pass: lamp, whose light flickers by 10 %",
        ["pacing"] = "there is always a rate",
        ["saturation"] = "saturates, or does not: lamp, shade",
        ["small QRS"] = "pass: every other case",
        ["low perfusion"] = "pass: still-finger",
        ["mains"] = "pass: 20 µV in every case",
        ["room light"] = "beyond it the light is saturated: sun",
        ["steps of room light"] = "pass: lamp; beyond it the light is saturated: sun",
        ["electrode off"] = "pass: third-off",
        ["electrodes"] = "beyond it an electrode is off: lead-off",
        ["contact of the light"] = "pass: every other case",
        ["two devices"] = "pass: clock",
        ["clock"] = "alone it harms nothing",
    };

    // What the set must have of disturbances, in the words of its plan.
    private static readonly string[] s_disturbances =
    [
        "none", "electrodes", "electrode off", "overload", "drift", "mains", "muscle", "electrode motion", "electrode pops", "pacing", "tall T wave", "small QRS",
        "irregular rhythm", "rate step", "standstill", "room light", "steps of room light", "flicker", "pulse-width lamp", "contact of the light", "low perfusion",
        "movement", "saturation", "data loss", "clock", "two devices", "settings", "calibration",
    ];

    private static string Folder { get; } = Path.Combine(Root, "waveforms", "vectors");

    private static VectorPlan Wide { get; } = VectorPlanReader.ReadFile(Path.Combine(Root, "waveforms", "vectors-wide", "plan.toml"));

    private static VectorPlan Plan { get; } = VectorPlanReader.ReadFile(Path.Combine(Folder, "plan.toml"));

    [Test]
    public void Plan_Kinds_CoverEveryAnswerOfTheLibrary()
    {
        var given = Directory.EnumerateFiles(Folder, "expected.csv", SearchOption.AllDirectories)
            .SelectMany(f => File.ReadLines(f).Skip(1)).Select(l => Kind(l.Split(',')[1])).ToHashSet();
        var judged = Plan.Cases.SelectMany(c => c.Requirements).Select(r => r.Kind).ToHashSet();

        Assert.That(given.Except(judged).Except(s_unjudged.Keys), Is.Empty, "answers in the set that no case judges");
        Assert.That(judged.Intersect(s_unjudged.Keys), Is.Empty);

        // The table of docs/detection.md names what the library gives.
        string page = File.ReadAllText(Path.Combine(Root, "docs", "detection.md"));
        string table = page[page.IndexOf("| answer | channel | value |", StringComparison.Ordinal)..page.IndexOf("`regular_rhythm` with quality 0", StringComparison.Ordinal)];
        IEnumerable<MarkKind> told = table.Split('\n').Where(l => l.StartsWith("| `", StringComparison.Ordinal))
            .SelectMany(l => Word().Matches(l.Split('|')[1]).Select(m => Kind(m.Groups[1].Value)));
        Assert.That(told.Except(judged).Except(s_unjudged.Keys), Is.Empty, "answers that the page tells of and no case judges");
    }

    [Test]
    public void Plan_EveryReasonOfAShutGate_IsAskedFor() => Assert.That(
        Plan.Cases.SelectMany(c => c.Requirements).Where(r => r.Kind == MarkKind.GateShut).Select(r => r.Value).OfType<double>().Distinct().Order(),
        Is.EqualTo(new double[] { 2, 3, 4, 5, 6, 7, 8 }), "1, waiting, is the state at the start");

    [Test]
    public void Plan_Disturbances_AreThereAtEachLevelOrSaidWhyNot()
    {
        // The shipped set must stay small: what finds no room in it stands in the wider plan.
        Dictionary<string, CaseLevel[]> levels = Plan.Cases.Concat(Wide.Cases).GroupBy(c => c.Disturbance, StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => g.Select(c => c.Level).Distinct().Order().ToArray(), StringComparer.Ordinal);

        Assert.That(levels.Keys, Is.EquivalentTo(s_disturbances));
        Assert.That(s_disturbances.Except(Plan.Cases.Select(c => c.Disturbance)), Is.EqualTo(new[] { "settings" }), "in the wider plan alone");
        Assert.That(levels.Where(l => l.Key != "none" && l.Value.Length < 3 && !s_missingLevels.ContainsKey(l.Key)).Select(l => l.Key), Is.Empty);
        Assert.That(s_missingLevels.Keys.Where(k => levels[k].Length == 3), Is.Empty);
    }

    [Test]
    public void Plan_Stimuli_AreOfTwelveCasesAndShort()
    {
        PlannedCase[] shipped = [.. Plan.Cases.Where(c => c.Stimulus.Count > 0)];

        Assert.That(shipped, Has.Length.AtLeast(12));
        Assert.That(shipped.Select(c => c.DurationS), Is.All.LessThanOrEqualTo(20));
        Assert.That(Plan.Cases.Count(c => c.Headers.Count > 0), Is.EqualTo(4));
        Assert.That(Plan.Cases.SelectMany(c => c.Headers).Select(h => h.Bits), Is.All.EqualTo(16));
    }

    [Test]
    public void Set_Files_AreSmall()
    {
        FileInfo[] files = [.. Directory.EnumerateFiles(Folder, "*", SearchOption.AllDirectories).Select(f => new FileInfo(f))];

        Assert.That(files.Sum(f => f.Length), Is.LessThan(5_000_000));
    }

    [Test]
    public void Verify_ShippedSet_MakesItAgainToTheBit()
    {
        Answer answer = Command.Run("vectors", "verify", Folder);

        Assert.That(answer.Code, Is.Zero, answer.Out + answer.Error);
    }

    [Test]
    [Category("Slow")]
    public void Make_WiderPlan_MeetsWhatItAsks()
    {
        Answer answer = Command.Run("vectors", "make", Path.Combine(Root, "waveforms", "vectors-wide", "plan.toml"), "--out", At("wide"));

        Assert.That(answer.Code, Is.Zero, answer.Out + answer.Error);
    }

    // What QA reads and what the plan lists must not drift apart.
    [Test]
    public void KnownAnomalies_OfThePage_AreThoseOfThePlan()
    {
        string page = File.ReadAllText(Path.Combine(Root, "docs", "known-anomalies.md"));
        IEnumerable<string> told = AnomalyRow().Matches(page).Select(m => $"{m.Groups[1].Value} {m.Groups[2].Value}");

        Assert.That(told, Is.EquivalentTo(Plan.Cases.SelectMany(c => c.Deviations.Select(d => $"{c.Name} {d.RequirementId}"))));
    }

    // Each test that the page names is one.
    [Test]
    public void Quality_TestsOfThePage_Exist()
    {
        string page = File.ReadAllText(Path.Combine(Root, "docs", "quality.md"));
        string[] rows = [.. page.Split('\n').Where(l => l.StartsWith("| T-", StringComparison.Ordinal))];
        HashSet<string> classes = [.. Directory.EnumerateFiles(Path.Combine(Root, "tests"), "*.cs", SearchOption.AllDirectories).Select(f => Path.GetFileNameWithoutExtension(f))];

        Assert.That(rows, Has.Length.AtLeast(15));
        foreach (string row in rows)
        {
            string[] named = [.. Code().Matches(row.Split('|')[^2]).Select(m => m.Groups[1].Value)];
            Assert.That(named, Is.Not.Empty, row);
            Assert.That(named.Where(n => n.Contains('/', StringComparison.Ordinal) ? !File.Exists(Path.Combine(Root, n)) : !classes.Contains(n)), Is.Empty, row);
        }
    }

    private static MarkKind Kind(string text)
    {
        Assert.That(MarkKinds.TryParse(text, out MarkKind kind), text);
        return kind;
    }

    [GeneratedRegex("`([a-z0-9_]+)`")]
    private static partial Regex Word();

    [GeneratedRegex("`([A-Za-z0-9/.-]+)`")]
    private static partial Regex Code();

    [GeneratedRegex(@"^\| `([a-z0-9-]+)` \| `([A-Za-z0-9._-]+)` \|", RegexOptions.Multiline)]
    private static partial Regex AnomalyRow();
}
