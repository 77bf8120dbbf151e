// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>Feet of the pulse in white noise, by both definitions.</summary>
internal sealed class FeetGroup : GradingGroup
{
    /// <inheritdoc/>
    public override string Name => "feet";

    /// <inheritdoc/>
    public override string Title => "Feet of the pulse, infrared at 100 Hz";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var tangents = new List<FigureRow>();
        var seconds = new List<FigureRow>();
        foreach (int level in new[] { 48, 36, 30 })
        {
            string file = FormattableString.Invariant($"pulse-noise-{level}db");
            GradedRun[] runs = Seeds(GradedRun.Read("graded", file), options, workers);
            ScoreReport[] reports = [.. runs.Select(r => r.Report)];
            string input = $"graded/{file}, {SeedText(options)}";
            var tangent = new PooledEvents(reports, ChannelName.Infrared, MarkKind.PulseFootTangent);
            var judge = new Judge();
            if (level < 48)
            {
                judge.AtLeast("Se", tangent.SensitivityPercent, 99.8, "%").AtLeast("+P", tangent.PositivePredictivityPercent, 99.8, "%")
                    .AtMost("bias", tangent.BiasMs, level == 36 ? 2.5 : 3, "ms").AtMost("SD", tangent.SdMs, level == 36 ? 3 : 5, "ms");
            }

            tangents.Add(judge.Row($"{input}, tangents", $"{tangent.CountsText}; {tangent.TimingText}{Trouble(runs)}"));
            var second = new PooledEvents(reports, ChannelName.Infrared, MarkKind.PulseFootSecondDerivative);
            judge = level == 48 ? new Judge().AtMost("SD after its constant", second.SdMs, 5, "ms") : new Judge();
            seconds.Add(judge.Row($"{input}, second derivative", $"{second.TimingText}; {second.CountsText}"));
        }

        return [.. tangents, .. seconds];
    }
}
