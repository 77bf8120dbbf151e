// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>R peaks at 12, 6 and 0 dB of one kind of noise.</summary>
internal sealed class NoiseGroup : GradingGroup
{
    private static readonly int[] s_levelsDb = [12, 6, 0];
    private readonly double[] _sensitivity;
    private readonly double[] _predictivity;

    /// <summary>Creates the group.</summary>
    /// <param name="name">Name of the group and of its files up to the level.</param>
    /// <param name="title">Heading.</param>
    /// <param name="sensitivity">Least sensitivity at each level [%].</param>
    /// <param name="predictivity">Least positive predictivity [%].</param>
    public NoiseGroup(string name, string title, double[] sensitivity, double[] predictivity)
    {
        Name = name;
        Title = title;
        _sensitivity = sensitivity;
        _predictivity = predictivity;
    }

    /// <inheritdoc/>
    public override string Name { get; }

    /// <inheritdoc/>
    public override string Title { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var rows = new List<FigureRow>();
        for (int i = 0; i < s_levelsDb.Length; i++)
        {
            string file = FormattableString.Invariant($"{Name}-{s_levelsDb[i]}db");
            GradedRun[] runs = Seeds(GradedRun.Read("graded", file), options, workers);
            var pooled = new PooledEvents(runs.Select(r => r.Report), ChannelName.Ecg, MarkKind.RPeak);
            rows.Add(new Judge()
                .AtLeast("Se", pooled.SensitivityPercent, _sensitivity[i], "%").AtLeast("+P", pooled.PositivePredictivityPercent, _predictivity[i], "%")
                .Row($"graded/{file}, {SeedText(options)}", $"{pooled.CountsText}; {pooled.TimingText}{Trouble(runs)}"));
        }

        return rows;
    }
}
