// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Beats;
using SensorSim.Scoring.Definitions;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Output;

/// <summary>Lines under the tables: what a figure means, and figures that have no column.</summary>
internal static class DefinitionText
{
    // Key of a definition to the words of the table's columns.
    private static readonly Dictionary<string, string> s_columns = new(StringComparer.Ordinal)
    {
        ["sensitivity"] = "Se", ["positive_predictivity"] = "+P", ["sensitivity_low"] = "95 % interval", ["timing_bias_ms"] = "bias, SD, p95",
        ["bias"] = "bias, SD, RMS, p95", ["wrong"] = "wrong", ["available_share"] = "with [%]", ["first_reading_s"] = "first",
        ["latency_median_ms"] = "late [ms]", ["classes"] = "classes", ["shutdown_s"] = "shut down", ["silent_s"] = "silent", ["rhythm"] = "rhythm",
    };

    /// <summary>What the columns of a table mean, a line each.</summary>
    /// <param name="definitions">The definitions; those without a column are left out.</param>
    public static IEnumerable<string> Of(IEnumerable<ScoreDefinition> definitions) =>
        definitions.Where(d => s_columns.ContainsKey(d.Key)).Select(d => $"  {s_columns[d.Key]}: {d.Text}");

    /// <summary>Figures of events beside the table, each followed by what it means; none where there is nothing to tell.</summary>
    /// <param name="report">The scores.</param>
    public static IEnumerable<string> MoreOf(ScoreReport report)
    {
        var told = new List<string>();
        foreach (EventScore s in report.Scores.Where(s => s.Kind is MarkKind.RPeak or MarkKind.PulseFootTangent))
        {
            string row = $"{s.Channel.Text()} {s.Kind.Text()}";
            if (s.Classes.Any(c => c.Class is not (HeartBeatClass.Normal or HeartBeatClass.Unknown)))
            {
                yield return $"classes of {row}: {string.Join(", ", s.Classes.Select(Found))}";
                told.Add("classes");
            }

            if (s.ShutdownS > 0)
            {
                yield return FormattableString.Invariant($"shut down by the detector itself, {row}: {s.ShutdownS:0.0} s, {s.MissedInShutdown} of the {s.Missed} missed events in it");
                told.Add("shutdown_s");
            }

            if (s.SilentS > 0)
            {
                yield return FormattableString.Invariant($"silent, {row}: {s.SilentS:0.0} s");
                told.Add("silent_s");
            }
        }

        if (report.Rhythm is RhythmScore r)
        {
            yield return FormattableString.Invariant($"irregular rhythm: flagged {r.FlaggedIrregularS:0.0} of {r.IrregularS:0.0} s ({Share(r.Sensitivity)}), not flagged {r.RegularS - r.FlaggedRegularS:0.0} of {r.RegularS:0.0} s of other rhythm ({Share(r.Specificity)}); episodes found {r.FoundEpisodeCount} of {r.EpisodeCount}, flags right {r.RightFlagCount} of {r.FlagCount}");
            told.Add("rhythm");
        }

        foreach (string line in Of([.. ScoreDefinitions.MoreOfEvents.Where(d => told.Contains(d.Key)), .. ScoreDefinitions.Rhythm.Where(d => told.Contains(d.Key))]))
        {
            yield return line;
        }
    }

    private static string Found(ClassCounts counts) =>
        FormattableString.Invariant($"{counts.Class.Text().Replace('_', ' ')} {counts.Found} of {counts.Found + counts.Missed} found");

    private static string Share(double? share) => share is double s ? FormattableString.Invariant($"{s * 100:0.0} %") : "-";
}
