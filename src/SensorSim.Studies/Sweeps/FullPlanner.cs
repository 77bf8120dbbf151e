// SPDX-License-Identifier: MIT
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>Asks for every run of a study, or of one part of it, at once.</summary>
/// <param name="plan">The study.</param>
/// <param name="shard">Which part.</param>
public sealed class FullPlanner(StudyPlan plan, Shard shard) : IRunPlanner
{
    /// <summary>Asks for every run of a study.</summary>
    /// <param name="plan">The study.</param>
    public FullPlanner(StudyPlan plan)
        : this(plan, Shard.Whole)
    {
    }

    /// <inheritdoc/>
    public IReadOnlyList<long> NextBatch(IReadOnlyList<RunRow> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        HashSet<long> made = [.. rows.Select(r => r.Run)];
        var batch = new List<long>();
        for (long run = shard.Number - 1; run < plan.RunCount; run += shard.Count)
        {
            if (!made.Contains(run))
            {
                batch.Add(run);
            }
        }

        return batch;
    }
}
