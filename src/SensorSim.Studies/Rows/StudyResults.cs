// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Rows;

/// <summary>A plan and the rows of its runs, each at most once, in order of their numbers.</summary>
/// <remarks>An adaptive study has rows of some runs only.</remarks>
public sealed class StudyResults
{
    private readonly Dictionary<long, RunRow> _byRun;

    // Asked for again and again, each time by another table: found in all rows once.
    private readonly Lazy<IReadOnlyList<RequirementOnRow>> _requirements;
    private readonly Lazy<(long Runs, long Unanswered)[]> _counts;

    /// <summary>Creates results.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="rows">Its rows, in any order.</param>
    /// <exception cref="ArgumentException">A row stands twice or is of no run of the plan.</exception>
    public StudyResults(StudyPlan plan, IEnumerable<RunRow> rows)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(rows);
        Plan = plan;
        Rows = [.. rows.OrderBy(r => r.Run)];
        _byRun = Rows.ToDictionary(r => r.Run);
        if (Rows.Count > 0 && (Rows[0].Run < 0 || Rows[^1].Run >= plan.RunCount))
        {
            throw new ArgumentException($"Runs are 0 to {plan.RunCount - 1}.", nameof(rows));
        }

        _requirements = new(() => [.. plan.Requirements.SelectMany(r => ChannelsOf(r.Definition.Kind).Select(c => new RequirementOnRow(r.Definition, r.Limit, c)))]);
        _counts = new(Counted);
    }

    /// <summary>The plan.</summary>
    public StudyPlan Plan { get; }

    /// <summary>The rows, in order of their numbers.</summary>
    public IReadOnlyList<RunRow> Rows { get; }

    /// <summary>The row of a run; null when it was not made.</summary>
    /// <param name="key">The run.</param>
    public RunRow? Find(RunKey key) => _byRun.GetValueOrDefault(Plan.NumberOf(key));

    /// <summary>The rows of a detector at a point, in order of seed, then subject.</summary>
    /// <param name="point">Index of the point.</param>
    /// <param name="detector">Index of the detector.</param>
    public IEnumerable<RunRow> At(int point, int detector)
    {
        for (int seed = 0; seed < Plan.Seeds.Count; seed++)
        {
            for (int subject = 0; subject < Plan.SubjectCount; subject++)
            {
                if (Find(new RunKey(point, seed, subject, detector)) is RunRow row)
                {
                    yield return row;
                }
            }
        }
    }

    /// <summary>The plan's requirements, each on every channel that has such a row; on no row at all they are left out.</summary>
    public IReadOnlyList<RequirementOnRow> Requirements => _requirements.Value;

    /// <summary>Runs of a detector, and how many of them it did not answer in.</summary>
    /// <param name="detector">Index of the detector.</param>
    public (long Runs, long Unanswered) CountsOf(int detector) => _counts.Value[detector];

    private (long Runs, long Unanswered)[] Counted()
    {
        var counts = new (long Runs, long Unanswered)[Plan.Detectors.Count];
        foreach (RunRow row in Rows)
        {
            ref (long Runs, long Unanswered) own = ref counts[Plan.KeyOf(row.Run).Detector];
            own.Runs++;
            own.Unanswered += row.Verdict == Running.Verdict.Answered ? 0 : 1;
        }

        return counts;
    }

    private IEnumerable<ChannelName> ChannelsOf(Signals.Marks.MarkKind kind) => Rows
        .SelectMany(r => r.Events.Where(e => e.Kind == kind).Select(e => e.Channel).Concat(r.Readings.Where(e => e.Kind == kind).Select(e => e.Channel)))
        .Distinct()
        .Order();
}
