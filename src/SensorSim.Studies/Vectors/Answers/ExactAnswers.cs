// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;

namespace SensorSim.Studies.Vectors.Answers;

/// <summary>Holds answers against expected ones, column by column. In which order they were given makes no difference.</summary>
public static class ExactAnswers
{
    // Of one channel and kind and at most this far apart, two answers are about the same thing.
    private const long WindowNs = 150_000_000;

    /// <summary>What differs.</summary>
    /// <param name="expected">What is expected.</param>
    /// <param name="given">What was given; columns that it does not have are not compared.</param>
    public static AnswerDifference Compare(IReadOnlyList<DetectionRow> expected, CaseFile given)
    {
        ArgumentNullException.ThrowIfNull(expected);
        ArgumentNullException.ThrowIfNull(given);
        IReadOnlyList<string> columns = AnswerColumns.Compared(given.Columns);
        var open = new Dictionary<string, Queue<DetectionRow>>(StringComparer.Ordinal);
        foreach (DetectionRow row in expected)
        {
            string line = AnswerColumns.Line(row, columns);
            if (!open.TryGetValue(line, out Queue<DetectionRow>? same))
            {
                same = new Queue<DetectionRow>();
                open.Add(line, same);
            }

            same.Enqueue(row);
        }

        var surplus = new List<DetectionRow>();
        long equal = 0;
        foreach (AnswerRow row in given.Rows)
        {
            if (open.TryGetValue(AnswerColumns.Line(row.Mark, columns), out Queue<DetectionRow>? same) && same.TryDequeue(out _))
            {
                equal++;
            }
            else
            {
                surplus.Add(row.Mark);
            }
        }

        (DetectionRow? firstExpected, DetectionRow? firstGiven) = First([.. open.Values.SelectMany(q => q)], surplus);
        return new AnswerDifference(equal, expected.Count, given.Rows.Count, columns, firstExpected, firstGiven);
    }

    // The earliest of both, with its nearest counterpart when there is one.
    private static (DetectionRow? Expected, DetectionRow? Given) First(List<DetectionRow> missing, List<DetectionRow> surplus)
    {
        DetectionRow? lost = Earliest(missing);
        DetectionRow? more = Earliest(surplus);
        if (lost is DetectionRow expected && (more is not DetectionRow later || expected.TimeNs <= later.TimeNs))
        {
            return (expected, Nearest(surplus, expected));
        }

        return more is DetectionRow given ? (Nearest(missing, given), given) : (null, null);
    }

    private static DetectionRow? Earliest(List<DetectionRow> rows) =>
        rows.Count == 0 ? null : rows.OrderBy(r => r.TimeNs).ThenBy(r => r.Channel).ThenBy(r => r.Kind).First();

    private static DetectionRow? Nearest(List<DetectionRow> rows, DetectionRow to)
    {
        DetectionRow? nearest = null;
        foreach (DetectionRow row in rows.Where(r => r.Channel == to.Channel && r.Kind == to.Kind && Math.Abs(r.TimeNs - to.TimeNs) <= WindowNs))
        {
            nearest = nearest is not DetectionRow best || Math.Abs(row.TimeNs - to.TimeNs) < Math.Abs(best.TimeNs - to.TimeNs) ? row : nearest;
        }

        return nearest;
    }
}
