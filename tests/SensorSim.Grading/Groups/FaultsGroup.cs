// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>Lost packets and signals that jump in size: reported.</summary>
internal sealed class FaultsGroup : GradingGroup
{
    /// <inheritdoc/>
    public override string Name => "faults";

    /// <inheritdoc/>
    public override string Title => "Lost packets, jumps in size";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var rows = new List<FigureRow>();
        foreach (string file in new[] { "packet-loss-5-percent", "level-jump-ecg", "level-jump-light" })
        {
            GradedRun[] runs = Seeds(GradedRun.Read("graded", file), options, workers);
            ScoreReport[] reports = [.. runs.Select(r => r.Report)];
            string input = $"graded/{file}, {SeedText(options)}";
            var beats = new PooledEvents(reports, ChannelName.Ecg, MarkKind.RPeak);
            var feet = new PooledEvents(reports, ChannelName.Infrared, MarkKind.PulseFootTangent);
            rows.Add(new Judge().Row($"{input}, R peaks", $"{beats.CountsText}; {beats.TimingText}{Trouble(runs)}"));
            rows.Add(new Judge().Row($"{input}, feet by tangents", $"{feet.CountsText}; {feet.TimingText}"));
            rows.Add(new Judge().Row($"{input}, heart rate", new PooledReadings(reports, r => r.Kind == MarkKind.HeartRateBpm && r.Channel == ChannelName.Ecg).ErrorText("bpm")));
            rows.Add(new Judge().Row($"{input}, arrival of single beats", new PooledReadings(reports, MarkKind.ArrivalTimeMs).ErrorText("ms")));
        }

        return rows;
    }
}
