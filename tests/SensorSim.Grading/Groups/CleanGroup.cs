// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scenarios;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>Clean ECG of drawn persons in sinus rhythm, with ectopic beats and in atrial fibrillation.</summary>
internal sealed class CleanGroup : GradingGroup
{
    private static readonly (string File, string Words)[] s_set =
    [
        ("clean-sinus", "sinus rhythm"), ("clean-ectopy", "sinus rhythm with ventricular and atrial ectopy"), ("clean-fibrillation", "atrial fibrillation"),
    ];

    /// <inheritdoc/>
    public override string Name => "clean";

    /// <inheritdoc/>
    public override string Title => "Clean ECG of drawn persons, 10 min each";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var all = new List<GradedRun>();
        var rows = new List<FigureRow>();
        foreach ((string file, string words) in s_set)
        {
            Scenario scenario = GradedRun.Read("grading-sets", file);
            GradedRun[] runs = workers.ForEach(
                Enumerable.Range(1, options.Subjects), n => GradedRun.Of(scenario.WithSubject((ulong)n).WithSeed((ulong)n)));
            all.AddRange(runs);
            rows.Add(Row(words, runs));
        }

        rows.Add(Row("all three", all));
        return rows;
    }

    private static FigureRow Row(string words, IReadOnlyList<GradedRun> runs)
    {
        var pooled = new PooledEvents(runs.Select(r => r.Report), ChannelName.Ecg, MarkKind.RPeak);
        return new Judge()
            .AtLeast("Se", pooled.SensitivityPercent, 99.8, "%").AtLeast("+P", pooled.PositivePredictivityPercent, 99.8, "%")
            .AtMost("bias", pooled.BiasMs, 1, "ms").AtMost("SD", pooled.SdMs, 2, "ms")
            .Row(words, $"{pooled.CountsText}; {pooled.TimingText}{Trouble(runs)}");
    }
}
