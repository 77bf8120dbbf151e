// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;

namespace SensorSim.Studies.Vectors.Judging;

/// <summary>Judges the rules marks and prompt.</summary>
internal static class MarkJudge
{
    /// <summary>Found: windows with a mark. Extra: further marks of a channel in a window, and marks between windows.</summary>
    /// <remarks>Where any channel may answer, two lights that both show a pulse both mark it: neither is one too many.</remarks>
    public static Finding Judge(PlannedRequirement requirement, IReadOnlyList<AcceptanceRow> rows, CaseAnswers answers)
    {
        IReadOnlyList<Answer> marks = answers.Of(requirement.Kind, requirement.Channel);
        long events = 0;
        long found = 0;
        long extra = 0;
        long? firstMissed = null;
        long? firstExtra = null;
        foreach (AcceptanceRow row in rows)
        {
            (int first, int after) = CaseAnswers.Between(marks, row.BeginNs, row.EndNs);
            bool isEvent = row.Rule == AcceptanceRule.One;
            long seen = 0;
            for (int i = first; i < after; i++)
            {
                long channel = 1L << (int)marks[i].Channel;
                if (isEvent && (seen & channel) == 0)
                {
                    seen |= channel;
                    continue;
                }

                extra++;
                firstExtra = Finding.Earlier(firstExtra, marks[i].TimeNs);
            }

            events += isEvent ? 1 : 0;
            found += seen != 0 ? 1 : 0;
            if (isEvent && seen == 0)
            {
                firstMissed ??= row.BeginNs + ((row.EndNs - row.BeginNs) / 2);
            }
        }

        double? sensitivity = events == 0 ? null : (double)found / events;
        double? predictivity = found + extra == 0 ? null : (double)found / (found + extra);
        bool isSensitive = requirement.SensitivityMin is not double least || sensitivity is null || sensitivity >= least;

        // Who marks nothing where there is something is right in no mark.
        bool isPredictive = requirement.PositivePredictivityMin is not double leastRight || (predictivity is null ? events == 0 : predictivity >= leastRight);
        if (events == 0 && requirement.PositivePredictivityMin is null)
        {
            return Finding.NotJudged("no event of truth is scored in the case");
        }

        string text = string.Create(CultureInfo.InvariantCulture, $"{found} of {events} found, {extra} extra");
        text += firstMissed is long missed ? $", first missed at {Finding.At(missed)}" : "";
        text += firstExtra is long surplus ? $", first extra at {Finding.At(surplus)}" : "";
        text += isSensitive ? "" : $"; sensitivity {Finding.Text(sensitivity ?? 0)}, at least {Finding.Text(requirement.SensitivityMin ?? 0)} is required";
        text += isPredictive ? "" : $"; positive predictivity {(predictivity is double p ? Finding.Text(p) : "undefined")}, at least {Finding.Text(requirement.PositivePredictivityMin ?? 0)} is required";
        return Finding.Of(
            isSensitive && isPredictive,
            text,
            [
                new VerdictFigure("event_count", events), new VerdictFigure("found_count", found), new VerdictFigure("extra_count", extra),
                new VerdictFigure("sensitivity", sensitivity, requirement.SensitivityMin),
                new VerdictFigure("positive_predictivity", predictivity, requirement.PositivePredictivityMin),
            ],
            isSensitive ? firstExtra : isPredictive ? firstMissed : Finding.Earlier(firstMissed, firstExtra));
    }

    /// <summary>Told in time: windows with a mark that was emitted by then. An event without a mark was not told.</summary>
    public static Finding Prompt(PlannedRequirement requirement, IReadOnlyList<AcceptanceRow> rows, CaseAnswers answers)
    {
        IReadOnlyList<Answer> marks = answers.Of(requirement.Kind, requirement.Channel);
        if (marks.Count > 0 && marks.All(m => m.EmittedNs is null))
        {
            return Finding.NotJudged("the answers do not say when they were emitted (emitted_time_ns)");
        }

        long prompt = 0;
        long impossible = 0;
        long? firstLate = null;
        long? worstNs = null;
        foreach (AcceptanceRow row in rows)
        {
            (int first, int after) = CaseAnswers.Between(marks, row.BeginNs, row.EndNs);
            long? emitted = null;
            for (int i = first; i < after; i++)
            {
                bool isPossible = marks[i].EmittedNs is not long told || told >= marks[i].TimeNs;
                impossible += isPossible ? 0 : 1;
                emitted = Finding.Earlier(emitted, isPossible ? marks[i].EmittedNs ?? long.MaxValue : long.MaxValue);
            }

            bool isPrompt = emitted <= row.EmittedByNs;
            prompt += isPrompt ? 1 : 0;
            if (!isPrompt)
            {
                firstLate ??= row.BeginNs + ((row.EndNs - row.BeginNs) / 2);
            }

            if (emitted is long known and < long.MaxValue && row.EmittedByNs is long by)
            {
                worstNs = Math.Max(worstNs ?? long.MinValue, known - by + (long)Math.Round((requirement.LatencyMsMax ?? 0) * 1e6));
            }
        }

        double share = (double)prompt / rows.Count;
        double least = requirement.ShareMin ?? 1;
        string text = string.Create(CultureInfo.InvariantCulture, $"{prompt} of {rows.Count} events told within {requirement.LatencyMsMax} ms");
        text += worstNs is long slowest ? string.Create(CultureInfo.InvariantCulture, $", the slowest {slowest * 1e-6:0.###} ms after its event") : "";
        text += firstLate is long late ? $", first late or missing at {Finding.At(late)}" : "";
        text += impossible == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"; {impossible} say that they were emitted before the time that they tell of, and count as not told");
        text += share >= least ? "" : $"; at least a share of {Finding.Text(least)} is required";
        return Finding.Of(
            share >= least,
            text,
            [
                new VerdictFigure("event_count", rows.Count), new VerdictFigure("prompt_share", share, least),
                new VerdictFigure("slowest_ms", worstNs * 1e-6, requirement.LatencyMsMax),
            ],
            firstLate);
    }
}
