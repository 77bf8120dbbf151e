// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scoring;
using SensorSim.Scoring.Readings;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>Heart rate from the light while walking and running.</summary>
/// <remarks>
/// Windows of 8 s every 2 s, as Zhang, Pi and Liu, IEEE Trans Biomed Eng 62:522-531, 2015, count them (from memory). What stands for a window is the
/// latest heart rate of an optical channel whose own time lies in its last 2 s; its truth is the mean rate of the true beats in the window.
/// </remarks>
internal sealed class WristGroup : GradingGroup
{
    private const long Second = 1_000_000_000;

    // A reading at the very end of a window may stand a sample after it, by rounding.
    private const long SampleNs = 10_000_000;

    /// <inheritdoc/>
    public override string Name => "wrist";

    /// <inheritdoc/>
    public override string Title => "Heart rate from the light at the wrist, windows of 8 s";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var rows = new List<FigureRow>();
        foreach (int coherence in new[] { 90, 50 })
        {
            foreach (string activity in new[] { "walking", "running" })
            {
                string file = FormattableString.Invariant($"wrist-{activity}-{coherence}-percent");
                GradedRun[] runs = Seeds(GradedRun.Read("graded", file), options, workers, s => GradedRun.Of(s, k => k == MarkKind.HeartRateBpm));
                rows.Add(Row($"graded/{file}, {SeedText(options)}", coherence, Windows(runs)));
            }
        }

        return rows;
    }

    private static FigureRow Row(string input, int coherence, List<(double Truth, double? Reading)> windows)
    {
        double[] errors = [.. windows.Where(w => w.Reading is not null).Select(w => Math.Abs(w.Reading!.Value - w.Truth))];
        int right = windows.Count(w => w.Reading is double r && Math.Abs(r - w.Truth) <= ReadingGate.LargestGoodError(MarkKind.HeartRateBpm, w.Truth));
        int fine = windows.Count - errors.Length + right;
        bool isGiven = errors.Length > 0;
        string measured = isGiven
            ? FormattableString.Invariant($"mean error {errors.Average():0.00} bpm; given {PooledEvents.Share(errors.Length, windows.Count)}; wrong {errors.Length - right} of {errors.Length}; withheld or right {PooledEvents.Share(fine, windows.Count)}")
            : "-";
        Judge judge = coherence == 90
            ? new Judge().AtMost("mean error", isGiven ? errors.Average() : null, 3, "bpm").AtLeast("windows given", isGiven ? 100.0 * errors.Length / windows.Count : null, 80, "%")
            : new Judge().AtLeast("withheld or right", isGiven ? 100.0 * fine / windows.Count : null, 90, "%");
        return judge.Row(input, measured);
    }

    private static List<(double Truth, double? Reading)> Windows(GradedRun[] runs)
    {
        var windows = new List<(double Truth, double? Reading)>();
        foreach (GradedRun run in runs)
        {
            TimedMark[] readings = [.. run.List.Marks.Where(m => m.Channel != ChannelName.Ecg).OrderBy(m => m.TimeNs)];
            long[] beats = [.. run.List.Beats.Select(b => b.TimeNs)];
            int next = 0;
            for (long end = run.Report.ScoredBeginNs; end <= run.Report.ScoredEndNs; end += 2 * Second)
            {
                long[] inside = [.. beats.Where(b => b > end - (8 * Second) && b <= end)];
                double? reading = null;
                for (; next < readings.Length && readings[next].TimeNs <= end + SampleNs; next++)
                {
                    reading = readings[next].TimeNs > end + SampleNs - (2 * Second) ? readings[next].Value : null;
                }

                windows.Add((60e9 * (inside.Length - 1) / (inside[^1] - inside[0]), reading));
            }
        }

        return windows;
    }
}
