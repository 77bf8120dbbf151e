// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.FailurePoints;

/// <summary>A failure point as a flat row of a table; what does not apply is null or empty.</summary>
public sealed record FailurePointRow
{
    /// <summary>Label of the detector.</summary>
    public required string Detector { get; init; }

    /// <summary>Key of the requirement, for example <c>requirements.r_peak_sensitivity_min</c>.</summary>
    public required string Requirement { get; init; }

    /// <summary>Channel and kind, for example <c>ecg r_peak</c>.</summary>
    public required string Subject { get; init; }

    /// <summary>The limit [<see cref="LimitUnit"/>].</summary>
    public required double Limit { get; init; }

    /// <summary>Unit of the limit; empty for a share.</summary>
    public required string LimitUnit { get; init; }

    /// <summary>The share of runs that must meet it [0 to 1]; null: pooled.</summary>
    public double? PassFraction { get; init; }

    /// <summary>The key whose level is looked for.</summary>
    public required string Key { get; init; }

    /// <summary>Unit of the level; empty for plain numbers.</summary>
    public required string Unit { get; init; }

    /// <summary>The other keys, as <c>key=value</c> with semicolons between; empty when there are none.</summary>
    public required string Held { get; init; }

    /// <summary>What became of the search: <c>found</c>, <c>met_everywhere</c>, <c>met_nowhere</c>, <c>no_curve</c>.</summary>
    public required string State { get; init; }

    /// <summary>The level [<see cref="Unit"/>].</summary>
    public double? Level { get; init; }

    /// <summary>Lower end of its 95 % interval [<see cref="Unit"/>]; minus infinity when open.</summary>
    public double? LevelLow { get; init; }

    /// <summary>Upper end of its 95 % interval [<see cref="Unit"/>]; infinite when open.</summary>
    public double? LevelHigh { get; init; }

    /// <summary>Runs behind it.</summary>
    public required long RunCount { get; init; }

    /// <summary>Events or readings behind it.</summary>
    public required long EventCount { get; init; }

    /// <summary>Definition and warnings in words.</summary>
    public required string Remarks { get; init; }

    /// <summary>Names of the columns, in the order of <see cref="Cells"/>.</summary>
    public static IReadOnlyList<string> Columns { get; } =
    [
        "detector", "requirement", "subject", "limit", "limit_unit", "pass_fraction", "key", "unit", "held", "state", "level", "level_low", "level_high",
        "run_count", "event_count", "remarks",
    ];

    /// <summary>The cells as text, invariant; an infinite end is <c>inf</c> or <c>-inf</c>.</summary>
    public IReadOnlyList<string> Cells =>
    [
        Detector, Requirement, Subject, Text(Limit), LimitUnit, Text(PassFraction), Key, Unit, Held, State, Text(Level), Text(LevelLow), Text(LevelHigh),
        RunCount.ToString(CultureInfo.InvariantCulture), EventCount.ToString(CultureInfo.InvariantCulture), Remarks,
    ];

    /// <summary>The rows of failure points.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="points">Its failure points.</param>
    public static IReadOnlyList<FailurePointRow> Of(StudyPlan plan, IReadOnlyList<FailurePoint> points)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(points);
        return
        [
            .. points.Select(p => new FailurePointRow
            {
                Detector = plan.Detectors[p.Detector].Label,
                Requirement = p.Requirement.Definition.Key.Name,
                Subject = p.Requirement.Subject,
                Limit = p.Requirement.Limit,
                LimitUnit = p.Requirement.Definition.Key.Unit,
                PassFraction = plan.FailurePoint.PassFraction,
                Key = p.Factor.Key.Name,
                Unit = p.Factor.Key is Signals.Keys.NumberKey number ? number.Unit : "",
                Held = string.Join("; ", p.Held.Select(h => $"{h.Factor.Key.Name}={(h.Value is double d ? Text(d) : h.Value)}")),
                State = Word(p.State),
                Level = p.Level,
                LevelLow = p.Interval?.Low,
                LevelHigh = p.Interval?.High,
                RunCount = p.Levels.Sum(l => l.RunCount),
                EventCount = p.Levels.Sum(l => l.EventCount),
                Remarks = string.Join(" ", [p.Definition, .. p.Warnings]),
            }),
        ];
    }

    /// <summary>The word of a state in files.</summary>
    /// <param name="state">The state.</param>
    public static string Word(FailurePointState state) => state switch
    {
        FailurePointState.Found => "found",
        FailurePointState.MetEverywhere => "met_everywhere",
        FailurePointState.MetNowhere => "met_nowhere",
        _ => "no_curve",
    };

    private static string Text(double? value) => value switch
    {
        null => "",
        double.PositiveInfinity => "inf",
        double.NegativeInfinity => "-inf",
        double v => v.ToString("R", CultureInfo.InvariantCulture),
    };
}
