// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Agreement;

/// <summary>Readings beside their true values, of some runs of a study that are made again: rows keep sums only, a plot needs pairs.</summary>
/// <remarks>
/// The runs are spread evenly over the rows of each detector (<see cref="EvenShare"/>), so every point, seed and person has its share; the same results give the same pairs. A person is a
/// subject; where nobody is drawn, every seed is. Runs are shared out to the cores, which changes no pair.
/// </remarks>
public static class AgreementSample
{
    // Enough to keep a few cores busy, and few enough to make a detector for each share.
    private const int RunsAtATime = 5;

    private static readonly MarkKind[] s_kinds =
    [
        MarkKind.HeartRateBpm, MarkKind.HeartRateFusedBpm, MarkKind.ArrivalTimeMs, MarkKind.ArrivalSpotMs, MarkKind.Spo2Percent, MarkKind.SystolicMmhg,
        MarkKind.DiastolicMmhg,
    ];

    /// <summary>Collects pairs.</summary>
    /// <param name="results">Plan and rows.</param>
    /// <param name="factories">One for each detector of the study, in their order; stay the caller's.</param>
    /// <param name="mostRuns">Runs made again for each detector, at least 1.</param>
    /// <param name="isOfInterest">Whether the runs of a detector at a point may be among them.</param>
    /// <param name="cancellation">Ends it between two blocks of a run.</param>
    /// <returns>Pairs for each detector, channel and kind that has any, in that order, and how many runs they are of.</returns>
    public static IReadOnlyList<(int Detector, ReadingPairs Pairs, int RunCount)> Collect(
        StudyResults results, IReadOnlyList<IDetectorFactory> factories, int mostRuns, Func<int, int, bool> isOfInterest, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(results);
        ArgumentNullException.ThrowIfNull(isOfInterest);
        ArgumentOutOfRangeException.ThrowIfLessThan(mostRuns, 1);
        var all = new List<(int, ReadingPairs, int)>();
        for (int detector = 0; detector < results.Plan.Detectors.Count; detector++)
        {
            RunRow[] rows = [.. results.Rows.Where(r => results.Plan.KeyOf(r.Run) is var key && key.Detector == detector && isOfInterest(detector, key.Point))];
            RunRow[] chosen = [.. EvenShare.Of(rows.Length, mostRuns).Select(i => rows[i])];
            (ChannelName Channel, MarkKind Kind)[] readings =
            [
                .. chosen.SelectMany(r => r.Readings).Where(r => r.Count > 0 && s_kinds.Contains(r.Kind)).Select(r => (r.Channel, r.Kind)).Distinct()
                    .OrderBy(r => r.Channel).ThenBy(r => r.Kind),
            ];
            if (readings.Length > 0)
            {
                ReadingPairs[] pairs = Empty(readings);
                foreach (ReadingPairs[] some in SideBySide.Each(
                    [.. chosen.Chunk(RunsAtATime)], rows => MakeAgain(results.Plan, factories, rows, Empty(readings), cancellation), cancellation))
                {
                    for (int i = 0; i < pairs.Length; i++)
                    {
                        pairs[i].Add(some[i]);
                    }
                }

                all.AddRange(pairs.Select(p => (detector, p, chosen.Length)));
            }
        }

        return all;
    }

    private static ReadingPairs[] Empty((ChannelName Channel, MarkKind Kind)[] readings) => [.. readings.Select(r => new ReadingPairs(r.Kind, r.Channel))];

    private static ReadingPairs[] MakeAgain(
        StudyPlan plan, IReadOnlyList<IDetectorFactory> factories, RunRow[] rows, ReadingPairs[] pairs, CancellationToken cancellation)
    {
        using var maker = new RunMaker(plan, factories)
        {
            ScorerMade = (scorer, run) =>
            {
                RunKey key = plan.KeyOf(run);
                Array.ForEach(pairs, p => p.Listen(scorer, run, plan.SubjectSeeds.Count == 0 ? key.Seed : key.Subject));
            },
        };
        foreach (RunRow row in rows)
        {
            maker.Make(row.Run, cancellation);
        }

        return pairs;
    }
}
