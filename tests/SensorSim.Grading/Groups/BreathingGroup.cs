// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>Breaths at rest: reported. Truth has no such rows, so they are made here from the phase of the body's breathing.</summary>
internal sealed class BreathingGroup : GradingGroup
{
    // Half the distance of two true values [s]; those of ten minutes fit into what the scorer remembers.
    private const double HalfStepS = 1;

    /// <inheritdoc/>
    public override string Name => "breathing";

    /// <inheritdoc/>
    public override string Title => "Respiration rate at rest";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        var rows = new List<FigureRow>();
        foreach (int rate in new[] { 8, 15, 24 })
        {
            Scenario scenario = GradedRun.Read("", "rest-finger-10min", text => WithRate(text, rate));
            ScoreReport[] reports = [.. Seeds(scenario, options, workers, s => GradedRun.Of(s, null, scorer => Feed(scorer, s))).Select(r => r.Report)];
            rows.Add(new Judge().Row(
                FormattableString.Invariant($"rest-finger-10min at {rate} breaths a minute, {SeedText(options)}"),
                new PooledReadings(reports, MarkKind.RespirationRateBpm).ErrorText("a minute")));
        }

        return rows;
    }

    private static string WithRate(string text, int rate)
    {
        string line = FormattableString.Invariant($"rate_per_min = {rate}");
        string[] lines = text.Split('\n');
        int at = Array.FindIndex(lines, l => l.StartsWith("rate_per_min", StringComparison.Ordinal));
        if (at < 0)
        {
            return text + $"\n[breathing]\n{line}\n";
        }

        lines[at] = line;
        return string.Join('\n', lines);
    }

    // The mean of these over a window is the number of breaths in it over its length.
    private static void Feed(Scorer scorer, Scenario scenario)
    {
        var breathing = new BreathingModel(scenario.Values, scenario.Seed);
        for (double t = HalfStepS; t < scenario.DurationS; t += 2 * HalfStepS)
        {
            double perMinute = (breathing.Phase.Turns(t + HalfStepS) - breathing.Phase.Turns(t - HalfStepS)) * 60 / (2 * HalfStepS);
            scorer.AddTruth(new TruthEvent(ChannelName.Ecg, MarkKind.RespirationRateBpm, (long)(t * 1e9), perMinute, -1, BeatClass.None, TruthFlags.None));
        }
    }
}
