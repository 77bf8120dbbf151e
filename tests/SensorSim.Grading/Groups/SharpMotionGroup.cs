// SPDX-License-Identifier: MIT
using SensorSim.Grading.Plain;
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scenarios;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>R peaks in sharp electrode motion, beside a plain textbook detector.</summary>
internal sealed class SharpMotionGroup : GradingGroup
{
    private static readonly int[] s_levelsDb = [12, 6, 0];

    /// <inheritdoc/>
    public override string Name => "sharp-motion";

    /// <inheritdoc/>
    public override string Title => "Sharp electrode motion, beside a plain detector";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var rows = new List<FigureRow>();
        foreach (int level in s_levelsDb)
        {
            string file = FormattableString.Invariant($"sharp-motion-{level}db");
            Scenario scenario = GradedRun.Read("graded", file);
            GradedRun[] ours = Seeds(scenario, options, workers);
            GradedRun[] theirs = Seeds(scenario, options, workers, s => GradedRun.Of(s, new PlainDetector()));
            PooledEvents our = Pool(ours);
            PooledEvents plain = Pool(theirs);
            string input = $"graded/{file}, {SeedText(options)}";
            rows.Add(new Judge().AtLeast("F1 against the plain one's", our.Counts.F1 * 100, (plain.Counts.F1 ?? 0) * 100, "%").Row(
                input, FormattableString.Invariant($"F1 {our.Counts.F1 * 100:0.00} %; {our.CountsText}; {our.TimingText}{Trouble(ours)}")));
            rows.Add(new Judge().Row($"{input}, plain detector", FormattableString.Invariant($"F1 {plain.Counts.F1 * 100:0.00} %; {plain.CountsText}")));
        }

        // The plain detector works: without noise it finds what there is.
        GradedRun[] clean = Seeds(GradedRun.Read("graded", "packet-loss-5-percent", t => t.Replace("packet_loss_percent = 5", "packet_loss_percent = 0", StringComparison.Ordinal)), options, workers, s => GradedRun.Of(s, new PlainDetector()));
        rows.Add(new Judge().Row($"no noise, {SeedText(options)}, plain detector", Pool(clean).CountsText));
        return rows;
    }

    private static PooledEvents Pool(IEnumerable<GradedRun> runs) => new(runs.Select(r => r.Report), ChannelName.Ecg, MarkKind.RPeak);
}
