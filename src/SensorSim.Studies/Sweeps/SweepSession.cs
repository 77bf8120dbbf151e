// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Sweeps;

/// <summary>A sweep in its folder: choosing constants where a study asks for it, then its runs, each with a journal of its own.</summary>
public sealed class SweepSession
{
    private readonly SweepFolder _folder;
    private readonly IReadOnlyList<IDetectorFactory> _factories;
    private readonly int _workers;

    /// <summary>Creates a session.</summary>
    /// <param name="folder">The folder; not finished.</param>
    /// <param name="factories">One for each detector of the study, in their order; stay the caller's.</param>
    /// <param name="workers">Runs at a time, and searches for failure points, at least 1.</param>
    public SweepSession(SweepFolder folder, IReadOnlyList<IDetectorFactory> factories, int workers)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(factories);
        _folder = folder;
        _factories = factories;
        _workers = workers;
    }

    /// <summary>Takes a sentence when runs are there already.</summary>
    public Action<string>? Say { get; init; }

    /// <summary>Told after every run.</summary>
    public Action<SweepProgress>? Progress { get; init; }

    /// <summary>Makes a whole study.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="identity">Its identity.</param>
    /// <param name="cancellation">Ends the sweep; what is done is kept in the folder.</param>
    /// <exception cref="OperationCanceledException">The sweep was cancelled.</exception>
    public SweepResults Run(StudyPlan plan, StudyIdentity identity, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(identity);
        IReadOnlyList<string> notices = StudyNotices.Of(plan);
        if (plan.Tuning is not TuningSettings tuning)
        {
            var all = new StudyResults(plan, Make(SweepFolder.JournalName, plan, Shard.Whole, cancellation));
            return SideBySide.Within(_workers, () => new SweepResults(all, identity) { Notices = notices });
        }

        // Where runs tell most is a question of the study, not of the choice before it: that is made on all of its points.
        StudyPlan first = TuningPlan.Split(plan) with { FailurePoint = new FailurePointSettings() };
        var tuned = new StudyResults(first, Make(SweepFolder.TuningJournalName, first, Shard.Whole, cancellation));
        (StudyPlan score, IReadOnlyList<TunedConstants> chosen) = TuningPlan.Choose(plan, tuned);
        var rows = new StudyResults(score, Make(SweepFolder.JournalName, score, Shard.Whole, cancellation));
        StudyIdentity ofScore = identity with { OfRuns = StudyIdentity.Of(score, _factories).OfRuns };
        return SideBySide.Within(_workers, () => new SweepResults(rows, ofScore) { Tuned = (tuning, chosen), Notices = notices });
    }

    /// <summary>Makes one part of a study.</summary>
    /// <param name="plan">The study; neither adaptive nor with tuning.</param>
    /// <param name="shard">Which part.</param>
    /// <param name="cancellation">Ends the sweep; what is done is kept in the folder.</param>
    /// <returns>Runs of the part.</returns>
    /// <exception cref="NotSupportedException">The study cannot be cut.</exception>
    /// <exception cref="OperationCanceledException">The sweep was cancelled.</exception>
    public int RunShard(StudyPlan plan, Shard shard, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return Make(SweepFolder.JournalName, plan, shard, cancellation).Count;
    }

    private IReadOnlyList<RunRow> Make(string journalName, StudyPlan plan, Shard shard, CancellationToken cancellation)
    {
        if (plan.FailurePoint.IsAdaptive && !shard.IsWhole)
        {
            throw new NotSupportedException($"{plan.File}: an adaptive study cannot be cut into shards");
        }

        IRunPlanner planner = plan.FailurePoint.IsAdaptive ? new AdaptivePlanner(plan) : new FullPlanner(plan, shard);
        StudyJournal journal = _folder.OpenJournal(journalName, plan, StudyIdentity.Of(plan, _factories), shard);
        if (journal.KeptCount > 0)
        {
            string what = journalName == SweepFolder.TuningJournalName ? " for tuning" : "";
            Say?.Invoke(string.Create(CultureInfo.InvariantCulture, $"going on: {journal.KeptCount} of {shard.RunCount(plan.RunCount)} runs{what} are there"));
        }

        IReadOnlyList<RunRow> rows = SweepRunner.Run(plan, planner, _factories, journal, _workers, Progress, cancellation);
        journal.Flush();
        return rows;
    }
}
