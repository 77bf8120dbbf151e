// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;

namespace SensorSim.Grading.Groups;

/// <summary>Arrival times at rest: the median of 30 s, and those of single beats.</summary>
internal sealed class ArrivalGroup : GradingGroup
{
    /// <inheritdoc/>
    public override string Name => "arrival";

    /// <inheritdoc/>
    public override string Title => "Arrival time at rest";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var rows = new List<FigureRow>();
        foreach (int level in new[] { 36, 30 })
        {
            string file = FormattableString.Invariant($"pulse-noise-{level}db");
            ScoreReport[] reports = [.. Seeds(GradedRun.Read("graded", file), options, workers).Select(r => r.Report)];
            string input = $"graded/{file}, {SeedText(options)}";
            var spot = new PooledReadings(reports, MarkKind.ArrivalSpotMs);
            Judge judge = level == 36 ? new Judge().AtMost("bias", spot.Bias, 3, "ms").AtMost("SD", spot.Sd, 2, "ms") : new Judge();
            rows.Add(judge.Row($"{input}, median of 30 s", spot.ErrorText("ms")));
            rows.Add(new Judge().Row($"{input}, single beats", new PooledReadings(reports, MarkKind.ArrivalTimeMs).ErrorText("ms")));
        }

        return rows;
    }
}
