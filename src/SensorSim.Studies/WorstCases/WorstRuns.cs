// SPDX-License-Identifier: MIT
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.WorstCases;

/// <summary>Chooses the runs that fall furthest short.</summary>
internal static class WorstRuns
{
    /// <summary>The worst runs, each at most once: the requirements take turns, each with its worst run that is left.</summary>
    internal static IReadOnlyList<(RequirementOnRow Requirement, RunRow Row)> Of(StudyResults results, int most)
    {
        IReadOnlyList<RequirementOnRow> requirements = results.Requirements;
        Queue<RunRow>[] queues = [.. requirements.Select(r => new Queue<RunRow>(Failing(results, r)))];
        var chosen = new List<(RequirementOnRow Requirement, RunRow Row)>();
        var taken = new HashSet<long>();
        bool isMore = true;
        while (isMore && chosen.Count < most)
        {
            isMore = false;
            for (int i = 0; i < queues.Length && chosen.Count < most; i++)
            {
                while (queues[i].TryDequeue(out RunRow? row))
                {
                    if (taken.Add(row.Run))
                    {
                        chosen.Add((requirements[i], row));
                        isMore = true;
                        break;
                    }
                }
            }
        }

        return chosen;
    }

    // Detectors that did not answer first, then what has no figure, then by distance from the limit; equals in order of their numbers.
    private static IEnumerable<RunRow> Failing(StudyResults results, RequirementOnRow requirement) => results.Rows
        .Where(row => !requirement.IsMetBy(row))
        .Select(row => (Row: row, Figure: requirement.FigureOf(row)))
        .OrderBy(r => r.Row.Verdict == Running.Verdict.Answered)
        .ThenBy(r => Margin(requirement, r.Figure))
        .ThenBy(r => r.Row.Run)
        .Select(r => r.Row);

    private static double Margin(RequirementOnRow requirement, double? figure) => figure is double f
        ? requirement.IsLeast ? f - requirement.Limit : requirement.Limit - Math.Abs(f)
        : double.NegativeInfinity;
}
