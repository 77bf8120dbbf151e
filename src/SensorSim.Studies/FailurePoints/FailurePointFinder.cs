// SPDX-License-Identifier: MIT
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.FailurePoints;

/// <summary>Finds the failure points of a study.</summary>
public static class FailurePointFinder
{
    /// <summary>
    /// One for each requirement on each of its channels, detector, numeric key, and combination of the other keys' values, as far as such a
    /// combination has at least two levels of the key.
    /// </summary>
    /// <param name="results">Plan and rows.</param>
    /// <returns>Failure points in order of requirements, detectors, keys, combinations; empty when there are none, see <see cref="WhyNone"/>.</returns>
    public static IReadOnlyList<FailurePoint> Find(StudyResults results)
    {
        ArgumentNullException.ThrowIfNull(results);
        StudyPlan plan = results.Plan;
        IReadOnlyList<SearchGroup> groups = SearchGroup.Of(plan);
        (RequirementOnRow Requirement, int Detector, SearchGroup Group)[] searches =
        [
            .. from requirement in results.Requirements
               from detector in Enumerable.Range(0, plan.Detectors.Count)
               from search in groups
               select (requirement, detector, search),
        ];

        // Searches know nothing of each other, so the order in which they end changes nothing.
        return SideBySide.Each(searches, s => FailureSearch.Run(results, s.Requirement, s.Detector, s.Group, plan.FailurePoint));
    }

    /// <summary>Why a study has no failure points; null when it has.</summary>
    /// <param name="results">Plan and rows.</param>
    public static string? WhyNone(StudyResults results)
    {
        ArgumentNullException.ThrowIfNull(results);
        StudyPlan plan = results.Plan;
        if (plan.Requirements.Count == 0)
        {
            return "No failure points: the study has no requirements.";
        }

        if (results.Requirements.Count == 0)
        {
            return "No failure points: no run has a row that a requirement is about.";
        }

        if (!plan.Factors.Any(f => f.IsNumber))
        {
            return "No failure points: no key with numbers is varied.";
        }

        return SearchGroup.Of(plan).Count > 0 ? null
            : "No failure points: no two points differ in one key only, as those of a Latin hypercube do not; a failure point needs the other keys held.";
    }
}
