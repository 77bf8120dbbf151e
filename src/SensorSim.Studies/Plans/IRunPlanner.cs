// SPDX-License-Identifier: MIT
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Plans;

/// <summary>Says which runs of a study to make next.</summary>
/// <remarks>
/// What it says depends on the plan and the rows only, never on time or order of completion: an interrupted study asks the same questions
/// again and finds their answers in its journal.
/// </remarks>
public interface IRunPlanner
{
    /// <summary>The next batch of runs, each not yet among the rows; empty when the study is complete.</summary>
    /// <param name="rows">The rows of all batches so far, in order of their numbers.</param>
    IReadOnlyList<long> NextBatch(IReadOnlyList<RunRow> rows);
}
