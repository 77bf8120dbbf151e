// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Judging;
using SensorSim.Studies.Vectors.Making;

namespace SensorSim.Studies.Vectors.Sets;

/// <summary>Writes <c>index.md</c>: the set for a reader, with a picture for each case.</summary>
internal static class SetIndex
{
    /// <summary>The bytes of the file.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="cases">Its cases, made.</param>
    /// <param name="detector">Whose answers the set expects.</param>
    public static byte[] Bytes(SetPlan plan, IReadOnlyList<MadeCase> cases, string detector)
    {
        var text = new StringBuilder();
        text.Append("# ").Append(Plain(plan.Plan.Title)).Append("\n\n");
        if (plan.Plan.About.Length > 0)
        {
            text.Append(Plain(plan.Plan.About)).Append("\n\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"Known-answer vectors: {cases.Count} cases, {plan.Plan.Requirements.Count} requirements. Generator version {Scenario.GeneratorVersion}; ");
        text.Append(CultureInfo.InvariantCulture, $"`expected.csv` holds what {detector} answers, `acceptance.csv` what every detector has to answer. ");
        text.Append("Simulated signals: not clinical evidence.\n\n");
        text.Append("- `sensorsim vectors verify DIR` makes everything but the pictures again and compares it bit for bit; `sha256sum -c manifest.sha256` checks the manifest, which holds the sum of every other file.\n");
        text.Append("- `sensorsim vectors compare DIR --answers FILE` judges answers. How to do it without this program is said in the project's `docs/vectors.md`.\n\n");
        Legend(text);
        Requirements(text, plan.Plan, cases);
        Cases(text, cases);
        foreach (MadeCase made in cases)
        {
            Case(text, made);
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static void Legend(StringBuilder text)
    {
        text.Append("Level says how hard a case is, not how it ended: ");
        text.AppendJoin(", ", Enum.GetValues<CaseLevel>().Select(l => $"`{l.Text()}` {SetWords.Level(l)}"));
        text.Append(". A shut gate of the library names its reason: ");
        text.AppendJoin(", ", SetWords.GateReasons.Skip(1).Select((reason, i) => FormattableString.Invariant($"{i + 1} {reason}")));
        text.Append(". In pictures truth and what is asked are blue, the library's answers orange.\n\n");
    }

    private static void Requirements(StringBuilder text, VectorPlan plan, IReadOnlyList<MadeCase> cases)
    {
        text.Append("## Requirements\n\n| id | requirement | from | answers | asked | cases |\n|---|---|---|---|---|---|\n");
        foreach (PlannedRequirement requirement in plan.Requirements)
        {
            string channel = requirement.Channel is ChannelName name ? name.Text() + " " : "";
            string used = string.Join(", ", cases.Where(c => c.Case.Requirements.Any(r => r.Id == requirement.Id)).Select(c => Link(c.Case.Name)));
            text.Append(CultureInfo.InvariantCulture, $"| {Plain(requirement.Id)} | {Plain(requirement.Text)} | {Plain(requirement.Clause)} | {channel}{requirement.Kind.Text()} | ");
            text.Append(CultureInfo.InvariantCulture, $"{RequirementLimits.Of(requirement)} | {(used.Length > 0 ? used : "none")} |\n");
        }

        text.Append('\n');
    }

    private static void Cases(StringBuilder text, IReadOnlyList<MadeCase> cases)
    {
        text.Append("## Cases\n\n| case | disturbance | level | length s | seed | scenario | the library's own answers |\n|---|---|---|---:|---:|---|---|\n");
        foreach (MadeCase made in cases)
        {
            PlannedCase planned = made.Case;
            int met = made.Verdicts.Count(v => v.Outcome == RequirementOutcome.Met);
            string own = met == made.Verdicts.Count
                ? "all met"
                : string.Join(", ", made.Verdicts.Where(v => v.Outcome != RequirementOutcome.Met).Select(v => $"{Plain(v.RequirementId)} {Words(v.Outcome)}"));
            text.Append(CultureInfo.InvariantCulture, $"| {Link(planned.Name)} | {Plain(planned.Disturbance)} | {SetWords.Level(planned.Level)} | {planned.DurationS:R} | {planned.Seed} | ");
            text.Append(CultureInfo.InvariantCulture, $"{Plain(planned.ScenarioPath)} | {own} |\n");
        }

        text.Append('\n');
    }

    private static void Case(StringBuilder text, MadeCase made)
    {
        PlannedCase planned = made.Case;
        text.Append(CultureInfo.InvariantCulture, $"## {planned.Name}\n\n");
        if (planned.About.Length > 0)
        {
            text.Append(Plain(planned.About)).Append("\n\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"![signals of {planned.Name}]({planned.Name}/{SetNames.Picture})\n\n");
        string channels = string.Join(", ", made.Facts.Channels.Select(c => FormattableString.Invariant($"{c.Channel} {c.RateHz} Hz {c.Bits} bit ({c.SampleCount} samples)")));
        text.Append(CultureInfo.InvariantCulture, $"Channels: {channels}. ");
        text.Append(planned.Stimulus.Count > 0 ? $"Samples: {string.Join(", ", planned.Stimulus.Select(s => s.Text()))}. " : $"Samples: not in the set, only their sum; `sensorsim vectors stimulus DIR --case {planned.Name} --out OUT` makes them. ");
        if (planned.CalibrationPath.Length > 0)
        {
            text.Append(CultureInfo.InvariantCulture, $"Calibration: {Plain(planned.CalibrationPath)}. ");
        }

        foreach (ManifestHeader header in made.Facts.Headers)
        {
            text.Append(CultureInfo.InvariantCulture, $"C header: [{header.File}]({header.File}), {header.Bits} bit, {string.Join(" ", header.Channels)}, ");
            text.Append(CultureInfo.InvariantCulture, $"{(header.KeepEvery == 1 ? "every sample" : $"one sample of {header.KeepEvery}")}, {header.ArrayBytes} bytes; answers to it: [{header.Expected}]({header.Expected}). ");
        }

        text.Append("\n\n| requirement | the library | figures |\n|---|---|---|\n");
        foreach (RequirementVerdict verdict in made.Verdicts)
        {
            string reason = planned.DeviationFrom(verdict.RequirementId) is not PlannedDeviation known ? ""
                : verdict.Outcome == RequirementOutcome.Met ? " (listed as a known deviation, which it is no longer)"
                : verdict.Sentence.Contains(known.Reason, StringComparison.Ordinal) ? "" : $" Known: {Plain(known.Reason)}";
            text.Append(CultureInfo.InvariantCulture, $"| {Plain(verdict.RequirementId)} | {Words(verdict.Outcome)} | {Plain(verdict.Sentence)}{reason} |\n");
        }

        text.Append('\n');
    }

    private static string Link(string name) => $"[{name}](#{name})";

    private static string Words(RequirementOutcome outcome) => outcome switch
    {
        RequirementOutcome.Met => "met",
        RequirementOutcome.NotMet => "not met",
        RequirementOutcome.KnownDeviation => "known deviation",
        _ => "not judged",
    };

    // What the plan says is text, not markup.
    private static string Plain(string words)
    {
        var plain = new StringBuilder(words.Length);
        foreach (char c in words)
        {
            plain.Append(c switch
            {
                '|' or '*' or '[' or ']' or '`' or '\\' => $"\\{c}",
                '<' => "&lt;",
                '>' => "&gt;",
                '&' => "&amp;",
                _ when char.IsControl(c) => " ",
                _ => c.ToString(),
            });
        }

        return plain.ToString();
    }
}
