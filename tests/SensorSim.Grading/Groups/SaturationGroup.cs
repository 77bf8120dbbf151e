// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scenarios;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;

namespace SensorSim.Grading.Groups;

/// <summary>Oxygen saturation from 70 to 100 % with weak pulses, and pulses that are too weak to read.</summary>
internal sealed class SaturationGroup : GradingGroup
{
    /// <inheritdoc/>
    public override string Name => "saturation";

    /// <inheritdoc/>
    public override string Title => "Oxygen saturation, 70 to 100 %, noise of −76 dB against the mean light";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        string steps = FormattableString.Invariant($"saturation in steps of {options.SaturationStep} points, {SeedText(options)}");
        PooledReadings strong = Levels("low-perfusion-1-percent", null, MarkKind.Spo2Percent, options, workers, out PooledReadings strongIndex);
        PooledReadings weak = Levels("low-perfusion-0-3-percent", null, MarkKind.Spo2Percent, options, workers, out PooledReadings weakIndex);
        var rows = new List<FigureRow>
        {
            new Judge().AtMost("A_rms", strong.Rms, 0.6, "points").Row($"graded/low-perfusion-1-percent, {steps}", strong.ErrorText("points")),
            new Judge().AtMost("A_rms", weak.Rms, 1.2, "points").Row($"graded/low-perfusion-0-3-percent, {steps}", weak.ErrorText("points")),
            new Judge().Row($"graded/low-perfusion-1-percent, {steps}, perfusion index", strongIndex.ErrorText("%")),
            new Judge().Row($"graded/low-perfusion-0-3-percent, {steps}, perfusion index", weakIndex.ErrorText("%")),
        };
        foreach (string index in new[] { "0.08", "0.05" })
        {
            PooledReadings refused = Levels("low-perfusion-0-3-percent", index, MarkKind.Spo2Percent, options, workers, out _);

            // Whoever never gives a reading refuses nothing.
            double? given = strong.Given == 0 ? null : refused.Given;
            rows.Add(new Judge().AtMost("readings given", given, 0, "").Row(
                $"the same with a perfusion index of {index} %", FormattableString.Invariant($"{refused.Given} readings given")));
        }

        return rows;
    }

    private static PooledReadings Levels(string file, string? perfusion, MarkKind kind, GradingOptions options, Workers workers, out PooledReadings index)
    {
        var jobs = new List<Scenario>();
        for (int saturation = 70; saturation <= 100; saturation += options.SaturationStep)
        {
            Scenario scenario = GradedRun.Read("graded", file, text =>
                (perfusion is null ? text : text.Replace("perfusion_index_percent = 0.3\n", $"perfusion_index_percent = {perfusion}\n", StringComparison.Ordinal))
                + FormattableString.Invariant($"\n[oxygen]\nsaturation_percent = {saturation}\n"));
            jobs.AddRange(Enumerable.Range(1, options.Seeds).Select(seed => scenario.WithSeed((ulong)seed)));
        }

        ScoreReport[] reports = workers.ForEach(jobs, s => GradedRun.Of(s).Report);
        index = new PooledReadings(reports, MarkKind.PerfusionIndexPercent);
        return new PooledReadings(reports, kind);
    }
}
