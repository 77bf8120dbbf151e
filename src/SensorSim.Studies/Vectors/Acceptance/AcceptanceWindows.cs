// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>Makes the windows of acceptance of a case: out of truth, acquisition and requirements, never out of what a detector says.</summary>
public static class AcceptanceWindows
{
    /// <summary>The rows of <c>acceptance.csv</c>: by requirement in the order of the plan, then in order of time.</summary>
    /// <param name="planned">The case.</param>
    /// <param name="truth">Its truth, body time.</param>
    /// <param name="acquisition">Its acquisition: clocks, unusable stretches.</param>
    /// <exception cref="SensorSim.Files.InputFileException">The acquisition contradicts itself.</exception>
    public static IReadOnlyList<AcceptanceRow> Of(PlannedCase planned, IEnumerable<TruthEvent> truth, IEnumerable<AcquisitionRow> acquisition)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(truth);
        ArgumentNullException.ThrowIfNull(acquisition);
        var time = new CaseTime(planned, [.. acquisition.Where(r => !r.Item.StartsWith(AcquisitionItems.LevelPrefix, StringComparison.Ordinal))]);
        var known = new CaseTruth(truth);
        var rows = new List<AcceptanceRow>();
        foreach (PlannedRequirement requirement in planned.Requirements)
        {
            IEnumerable<AcceptanceRow> own = requirement.Rule switch
            {
                RequirementRule.Marks => MarkRows.Of(requirement, time, known),
                RequirementRule.Readings => ReadingRows.Of(requirement, time, known),
                RequirementRule.Withheld => WithheldRows.Of(requirement, time, known),
                RequirementRule.Shown => ShownRows.Of(requirement, time, known),
                _ => MarkRows.Prompt(requirement, time, known),
            };
            rows.AddRange(own.OrderBy(r => r.BeginNs).ThenBy(r => r.EndNs).ThenBy(r => r.Rule));
        }

        return rows;
    }
}
