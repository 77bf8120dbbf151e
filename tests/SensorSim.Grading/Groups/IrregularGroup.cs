// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>Irregular rhythms, and drift with mains: every class of beats for itself.</summary>
internal sealed class IrregularGroup : GradingGroup
{
    private const int LeastBeats = 20;

    private static readonly (string Folder, string File)[] s_files =
    [
        ("rhythms", "ventricular-bigeminy"), ("rhythms", "block-second-degree-type-1"), ("rhythms", "ventricular-run"), ("rhythms", "scripted"),
        ("graded", "drift-and-mains"),
    ];

    /// <inheritdoc/>
    public override string Name => "irregular";

    /// <inheritdoc/>
    public override string Title => "Irregular rhythms, drift and mains, 10 min each";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var rows = new List<FigureRow>();
        foreach ((string folder, string file) in s_files)
        {
            Scenario scenario = GradedRun.Read(folder, file, t => t.Replace("duration_s = 30\n", "duration_s = 600\n", StringComparison.Ordinal));
            GradedRun[] runs = Seeds(scenario, options, workers, s => GradedRun.Of(s, k => k == MarkKind.RPeak));
            foreach (BeatClass label in runs.SelectMany(r => r.List.Beats).CountBy(b => b.Label).Where(c => c.Value >= LeastBeats).Select(c => c.Key).Order())
            {
                var pooled = new PooledEvents(runs.Select(r => OfClass(r, label, scenario.DurationS)), ChannelName.Ecg, MarkKind.RPeak);
                rows.Add(new Judge()
                    .AtLeast("Se", pooled.SensitivityPercent, 99.5, "%").AtLeast("+P", pooled.PositivePredictivityPercent, 99.5, "%")
                    .Row($"{folder}/{file}, {SeedText(options)}, beats: {Words(label)}", $"{pooled.CountsText}; {pooled.TimingText}{Trouble(runs)}"));
            }

            var rates = new PooledReadings(runs.Select(r => r.Report), r => r.Kind == MarkKind.HeartRateBpm && r.Channel == ChannelName.Ecg);
            rows.Add(new Judge().AtMost("rates off by more than 5 bpm and 10 %", rates.WrongOrNull, 0, "")
                .Row($"{folder}/{file}, {SeedText(options)}, heart rate", rates.ErrorText("bpm")));
        }

        return rows;
    }

    // Beats of other classes may be found or not; a detection of no beat counts against every class.
    private static ScoreReport OfClass(GradedRun run, BeatClass label, double durationS)
    {
        var scorer = new Scorer(run.Channels, (long)(durationS * 1e9));
        return scorer.ScoreAll(
            run.List.Beats.Select(b => b.Label == label ? b : b with { Flags = b.Flags | TruthFlags.Optional }), run.List.Marks, run.List.Unusable);
    }

    // VentricularPremature reads "ventricular premature".
    private static string Words(BeatClass label) =>
        string.Concat(label.ToString().Select((c, i) => char.IsUpper(c) && i > 0 ? $" {char.ToLowerInvariant(c)}" : $"{char.ToLowerInvariant(c)}"));
}
