// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Sweeps;

/// <summary>What a study came to: its rows, what was reached at each point, failure points.</summary>
public sealed class SweepResults
{
    /// <summary>Judges rows.</summary>
    /// <param name="rows">Plan and rows.</param>
    /// <param name="identity">Identity of the study.</param>
    public SweepResults(StudyResults rows, StudyIdentity identity)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(identity);
        Rows = rows;
        Identity = identity;
        Figures = Pooled(rows);
        FailurePoints = FailurePointFinder.Find(rows);
        WithoutRows = [.. rows.Plan.Requirements.Select(r => r.Definition).Where(d => Figures.All(f => f.Requirement.Definition != d))];
    }

    /// <summary>The seeds on which constants were chosen, and what was chosen for each detector; null when nothing was tuned.</summary>
    public (TuningSettings Settings, IReadOnlyList<TunedConstants> Chosen)? Tuned { get; init; }

    /// <summary>What its user is to be told, see <see cref="StudyNotices"/>.</summary>
    public IReadOnlyList<string> Notices { get; init; } = [];

    /// <summary>Plan and rows.</summary>
    public StudyResults Rows { get; }

    /// <summary>The plan.</summary>
    public StudyPlan Plan => Rows.Plan;

    /// <summary>Identity of the study.</summary>
    public StudyIdentity Identity { get; }

    /// <summary>What was reached: one for each requirement on each of its channels, detector and point that has runs, in that order.</summary>
    public IReadOnlyList<PointFigure> Figures { get; }

    /// <summary>Failure points.</summary>
    public IReadOnlyList<FailurePoint> FailurePoints { get; }

    /// <summary>Requirements that no row speaks of.</summary>
    public IReadOnlyList<RequirementDefinition> WithoutRows { get; }

    /// <summary>Whether the study looks for failure points: a number takes several values, so that falling short somewhere is what it is for.</summary>
    public bool LooksForFailurePoints => Plan.Factors.Any(f => f.IsNumber && f.Levels.Count > 1);

    /// <summary>Runs in which the detector was silent, babbled or crashed.</summary>
    public long UnansweredCount => Rows.Rows.Count(r => r.Verdict != Verdict.Answered);

    /// <summary>Whether every requirement is met at every point.</summary>
    public bool AreRequirementsMet => WithoutRows.Count == 0 && Figures.All(f => f.IsMet);

    /// <summary>
    /// Whether the study is fine: every detector answered in every run, every requirement could be judged and, unless failure points are looked for, is met
    /// at every point.
    /// </summary>
    public bool IsMet => UnansweredCount == 0 && WithoutRows.Count == 0
        && (Figures.Count == 0 || Figures.Any(f => f.Pool.Figure is not null))
        && (LooksForFailurePoints || AreRequirementsMet);

    private static List<PointFigure> Pooled(StudyResults rows)
    {
        var figures = new List<PointFigure>();
        foreach (RequirementOnRow requirement in rows.Requirements)
        {
            for (int detector = 0; detector < rows.Plan.Detectors.Count; detector++)
            {
                for (int point = 0; point < rows.Plan.Points.Count; point++)
                {
                    var pool = new RunPool(requirement.Definition, requirement.Channel);
                    foreach (RunRow row in rows.At(point, detector))
                    {
                        pool.Add(row);
                    }

                    if (pool.RunCount > 0)
                    {
                        figures.Add(new PointFigure(requirement, detector, point, pool));
                    }
                }
            }
        }

        return figures;
    }
}
