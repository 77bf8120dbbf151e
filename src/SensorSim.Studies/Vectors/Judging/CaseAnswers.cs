// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Vectors.Judging;

/// <summary>The answers of one case, by kind, in order of time.</summary>
public sealed class CaseAnswers
{
    private readonly Dictionary<MarkKind, List<Answer>> _kinds = [];

    private CaseAnswers()
    {
    }

    /// <summary>How many there are.</summary>
    public long Count { get; private set; }

    /// <summary>Answers of a detector, which say when they were emitted.</summary>
    /// <param name="rows">The answers, in any order.</param>
    public static CaseAnswers Of(IEnumerable<DetectionRow> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        return Sorted(rows.Select(r => (r.Kind, new Answer(r.Channel, r.TimeNs, r.Value, r.EmittedTimeNs))));
    }

    /// <summary>Answers of a detector, which say when they were emitted.</summary>
    /// <param name="marks">The answers, in any order.</param>
    public static CaseAnswers Of(IEnumerable<TimedMark> marks)
    {
        ArgumentNullException.ThrowIfNull(marks);
        return Sorted(marks.Select(m => (m.Kind, new Answer(m.Channel, m.TimeNs, m.Value, m.EmittedTimeNs))));
    }

    /// <summary>Answers out of a file, which may not say when they were emitted.</summary>
    /// <param name="rows">The answers, in any order.</param>
    public static CaseAnswers Of(IEnumerable<AnswerRow> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        return Sorted(rows.Select(r => (r.Mark.Kind, new Answer(r.Mark.Channel, r.Mark.TimeNs, r.Mark.Value, r.SaysWhenEmitted ? r.Mark.EmittedTimeNs : null))));
    }

    /// <summary>The answers of a kind, in order of time.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="channel">Their channel; null: any.</param>
    internal IReadOnlyList<Answer> Of(MarkKind kind, ChannelName? channel)
    {
        IReadOnlyList<Answer> all = _kinds.GetValueOrDefault(kind) ?? [];
        return channel is ChannelName own ? [.. all.Where(a => a.Channel == own)] : all;
    }

    /// <summary>Indices of the answers from one instant to another, both included: the first, and one past the last.</summary>
    internal static (int First, int After) Between(IReadOnlyList<Answer> answers, long beginNs, long endNs) => (FirstFrom(answers, beginNs), FirstFrom(answers, endNs + 1));

    private static CaseAnswers Sorted(IEnumerable<(MarkKind Kind, Answer Answer)> answers)
    {
        var sorted = new CaseAnswers();
        foreach ((MarkKind kind, Answer answer) in answers)
        {
            if (!sorted._kinds.TryGetValue(kind, out List<Answer>? list))
            {
                list = [];
                sorted._kinds.Add(kind, list);
            }

            list.Add(answer);
            sorted.Count++;
        }

        foreach (List<Answer> list in sorted._kinds.Values)
        {
            list.Sort((a, b) => a.TimeNs.CompareTo(b.TimeNs));
        }

        return sorted;
    }

    private static int FirstFrom(IReadOnlyList<Answer> answers, long timeNs)
    {
        int low = 0;
        int high = answers.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (answers[middle].TimeNs < timeNs)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }
}

/// <summary>One answer.</summary>
/// <param name="Channel">Channel it speaks of.</param>
/// <param name="TimeNs">Nominal device time [ns].</param>
/// <param name="Value">Value; NaN: none.</param>
/// <param name="EmittedNs">When it was emitted [ns]; null: unknown.</param>
internal readonly record struct Answer(ChannelName Channel, long TimeNs, double Value, long? EmittedNs);
