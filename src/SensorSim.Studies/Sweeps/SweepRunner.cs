// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>Makes the runs of a study on several cores.</summary>
/// <remarks>
/// Runs are handed out in the planner's order and kept as they are done; the result is in order of their numbers, so neither the number of
/// workers nor what was already there changes it.
/// </remarks>
public static class SweepRunner
{
    /// <summary>Makes what the planner asks for and the log does not have yet.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="planner">Says which runs.</param>
    /// <param name="factories">One for each detector of the study, in their order; stay the caller's.</param>
    /// <param name="log">Keeps the rows, and has those of an earlier start.</param>
    /// <param name="workers">Runs at a time, at least 1.</param>
    /// <param name="progress">Told after every run, by the calling thread; may be null.</param>
    /// <param name="cancellation">Ends the sweep; the rows of finished runs are kept.</param>
    /// <returns>The rows of every run that was asked for, in order of their numbers.</returns>
    /// <exception cref="Scenarios.Reading.ScenarioException">The values of a point contradict each other or the scenario.</exception>
    /// <exception cref="NotSupportedException">A detector cannot work on its stream.</exception>
    /// <exception cref="IOException">A row cannot be kept.</exception>
    /// <exception cref="OperationCanceledException">The sweep was cancelled.</exception>
    public static IReadOnlyList<RunRow> Run(
        StudyPlan plan,
        IRunPlanner planner,
        IReadOnlyList<IDetectorFactory> factories,
        IRunLog log,
        int workers,
        Action<SweepProgress>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(planner);
        ArgumentNullException.ThrowIfNull(factories);
        ArgumentNullException.ThrowIfNull(log);
        ArgumentOutOfRangeException.ThrowIfLessThan(workers, 1);
        var rows = new SortedDictionary<long, RunRow>();
        long made = 0;
        long toMake = 0;
        using var crew = new WorkerCrew(plan, factories, workers);
        while (planner.NextBatch([.. rows.Values]) is { Count: > 0 } batch)
        {
            var missing = new List<long>();
            foreach (long run in batch)
            {
                if (log.Find(run) is RunRow row)
                {
                    rows.Add(run, row);
                }
                else
                {
                    missing.Add(run);
                }
            }

            toMake += missing.Count;
            crew.Make(
                missing,
                row =>
                {
                    log.Add(row);
                    rows.Add(row.Run, row);
                    made++;
                    progress?.Invoke(new SweepProgress(made, toMake, made * plan.Scenario.DurationS));
                },
                log.Tick,
                cancellation);
        }

        return [.. rows.Values];
    }
}
