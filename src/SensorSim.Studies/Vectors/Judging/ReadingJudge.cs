// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Vectors.Judging;

/// <summary>Judges the rule readings.</summary>
internal static class ReadingJudge
{
    public static Finding Judge(PlannedRequirement requirement, IReadOnlyList<AcceptanceRow> rows, CaseAnswers answers)
    {
        IReadOnlyList<Answer> readings = answers.Of(requirement.Kind, requirement.Channel);
        Values values = Held(rows, readings);
        (long seconds, long covered, long? firstBare) = Covered(rows, readings);
        (bool isFirstMet, long? firstNs) = First(rows, readings);
        double? share = seconds == 0 ? null : (double)covered / seconds;

        // Without a whole second there is no share to miss.
        bool isShareMet = requirement.ShareMin is not double least || share is null || share >= least;
        bool isAnythingAsked = values.WindowCount > 0 || seconds > 0 || requirement.FirstWithinS is not null;
        if (!isAnythingAsked)
        {
            return Finding.NotJudged("no reading is scored in the case");
        }

        var text = new List<string>();
        if (values.WindowCount > 0)
        {
            text.Add(values.Count == 0 ? "no reading was given where one is judged"
                : string.Create(CultureInfo.InvariantCulture, $"{values.Count - values.WrongCount} of {values.Count} readings right"));
        }

        if (values.First is (Answer wrong, AcceptanceRow row))
        {
            string value = double.IsNaN(wrong.Value) ? "no value" : Finding.Text(wrong.Value);
            text.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"first wrong at {Finding.At(wrong.TimeNs)}: {value}, right is {Finding.Text(row.Low)} to {Finding.Text(row.High)} {requirement.Kind.Info().ValueUnit}"));
        }

        if (requirement.ShareMin is double wanted && seconds > 0)
        {
            string bare = firstBare is long second ? $", first without at {Finding.At(second)}" : "";
            text.Add(string.Create(CultureInfo.InvariantCulture, $"{covered} of {seconds} seconds with a reading{bare}; at least a share of {wanted} is required"));
        }

        if (requirement.FirstWithinS is double within)
        {
            text.Add(firstNs is long first
                ? string.Create(CultureInfo.InvariantCulture, $"first reading at {Finding.At(first)}, within {Finding.Text(within)} s is required")
                : $"no reading within {Finding.Text(within)} s, as is required");
        }

        bool isMet = values.WrongCount == 0 && isShareMet && isFirstMet;
        long? fault = Finding.Earlier(values.First?.Reading.TimeNs, isShareMet ? null : firstBare);
        return Finding.Of(
            isMet,
            string.Join("; ", text),
            [
                new VerdictFigure("reading_count", values.Count), new VerdictFigure("wrong_count", values.WrongCount, values.WindowCount > 0 ? 0 : null),
                new VerdictFigure("available_share", share, requirement.ShareMin),
                new VerdictFigure("first_reading_s", firstNs is long at ? at * 1e-9 : null, requirement.FirstWithinS),
            ],
            isFirstMet ? fault : Finding.Earlier(fault, (long)((requirement.FirstWithinS ?? 0) * 1e9)));
    }

    private static Values Held(IReadOnlyList<AcceptanceRow> rows, IReadOnlyList<Answer> readings)
    {
        var values = default(Values);
        foreach (AcceptanceRow row in rows.Where(r => r.Rule == AcceptanceRule.Within))
        {
            values.WindowCount++;
            (int first, int after) = CaseAnswers.Between(readings, row.BeginNs, row.EndNs);
            for (int i = first; i < after; i++)
            {
                values.Count++;
                if (!row.Allows(readings[i].Value))
                {
                    values.WrongCount++;
                    values.First ??= (readings[i], row);
                }
            }
        }

        return values;
    }

    private static (long Seconds, long Covered, long? FirstBare) Covered(IReadOnlyList<AcceptanceRow> rows, IReadOnlyList<Answer> readings)
    {
        long seconds = 0;
        long covered = 0;
        long? firstBare = null;
        foreach (AcceptanceRow row in rows.Where(r => r.Rule == AcceptanceRule.Some))
        {
            seconds++;
            (int first, int after) = CaseAnswers.Between(readings, row.BeginNs, row.EndNs);
            bool isCovered = false;
            for (int i = first; i < after && !isCovered; i++)
            {
                isCovered = IsReading(readings[i], row);
            }

            if (isCovered)
            {
                covered++;
            }
            else
            {
                firstBare ??= row.EndNs;
            }
        }

        return (seconds, covered, firstBare);
    }

    private static (bool IsMet, long? FirstNs) First(IReadOnlyList<AcceptanceRow> rows, IReadOnlyList<Answer> readings)
    {
        AcceptanceRow[] asked = [.. rows.Where(r => r.Rule == AcceptanceRule.First)];
        Answer[] right = [.. readings.Where(r => asked.All(row => IsReading(r, row)))];
        long? firstNs = right.Length == 0 ? null : right.Min(r => Math.Max(r.TimeNs, r.EmittedNs ?? r.TimeNs));
        bool isMet = asked
            .All(row => right.Any(r => r.TimeNs >= row.BeginNs && r.TimeNs <= row.EndNs && (r.EmittedNs ?? r.TimeNs) <= row.EmittedByNs));
        return (isMet, firstNs);
    }

    // What has no value, or a wrong one, is no reading that was given.
    private static bool IsReading(in Answer answer, in AcceptanceRow row) => !double.IsNaN(answer.Value) && row.Allows(answer.Value);

    private struct Values
    {
        public long WindowCount;
        public long Count;
        public long WrongCount;
        public (Answer Reading, AcceptanceRow Row)? First;
    }
}
