// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Results;

/// <summary>A requirement and what became of it.</summary>
/// <param name="Definition">The requirement.</param>
/// <param name="Limit">Its limit.</param>
/// <param name="Actual">The figure reached; null when it is undefined, for example without any detection.</param>
/// <param name="Subject">Channel and kind of the row, for example <c>ecg r_peak</c>.</param>
public sealed record RequirementResult(RequirementDefinition Definition, double Limit, double? Actual, string Subject)
{
    /// <summary>Decimals of the figure that mean something; null where nothing tells.</summary>
    public int? Decimals { get; init; }

    /// <summary>Whether the requirement is met; an undefined figure does not meet it.</summary>
    public bool IsMet => IsMetBy(Actual);

    /// <summary>The figure reached, for people: with the digits that mean something, and with more where it would read as if it lay on the other side of the limit.</summary>
    public string ToldActual => ToldDigits.Text(Actual, Decimals, IsMetBy);

    /// <summary>Judges the requirements of a scenario on every row that they speak of.</summary>
    /// <param name="requirements">Requirements and limits.</param>
    /// <param name="report">The scores.</param>
    public static IReadOnlyList<RequirementResult> Judge(IEnumerable<(RequirementDefinition Definition, double Limit)> requirements, ScoreReport report)
    {
        ArgumentNullException.ThrowIfNull(requirements);
        ArgumentNullException.ThrowIfNull(report);
        return [.. requirements.SelectMany(r => Rows(r.Definition, r.Limit, report))];
    }

    private static List<RequirementResult> Rows(RequirementDefinition definition, double limit, ScoreReport report)
    {
        var events = report.Scores.Where(s => s.Kind == definition.Kind)
            .Select(s => (s.Channel, Actual: EventFigure(s, definition.Figure), Decimals: FigureDigits.Of(s, definition.Figure)));
        var readings = report.Readings.Where(s => s.Kind == definition.Kind)
            .Select(s => (s.Channel, Actual: ReadingFigure(s, definition.Figure), Decimals: FigureDigits.Of(s, definition.Figure)));
        var rows = events.Concat(readings)
            .Select(row => new RequirementResult(definition, limit, row.Actual, $"{row.Channel.Text()} {definition.Kind.Text()}") { Decimals = row.Decimals })
            .ToList();
        return rows.Count > 0 ? rows : [new RequirementResult(definition, limit, null, definition.Kind.Text())];
    }

    private bool IsMetBy(double? figure) => figure is double f && (Definition.Figure.IsLeast() ? f >= Limit : Math.Abs(f) <= Limit);

    private static double? EventFigure(EventScore score, RequiredFigure figure) => figure switch
    {
        RequiredFigure.Sensitivity => score.Sensitivity,
        RequiredFigure.PositivePredictivity => score.PositivePredictivity,
        RequiredFigure.TimingBias => score.TimingBiasMs,
        RequiredFigure.TimingSd => score.TimingSdMs,
        RequiredFigure.TimingP95 => score.TimingP95Ms,
        _ => null,
    };

    private static double? ReadingFigure(ReadingScore score, RequiredFigure figure) => figure switch
    {
        RequiredFigure.ReadingBias => score.Bias,
        RequiredFigure.ReadingSd => score.Sd,
        RequiredFigure.ReadingRms => score.Rms,
        RequiredFigure.ReadingAvailableShare => score.AvailableShare,
        RequiredFigure.ReadingWrongShare => score.WrongShare,
        RequiredFigure.ReadingFirst => score.FirstReadingS,
        _ => null,
    };
}
