// SPDX-License-Identifier: MIT
using SensorSim.Files.Tables;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Sweeps;

/// <summary>Failure points as a table: a row for each.</summary>
public static class FailurePointTable
{
    /// <summary>The table.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="points">Its failure points.</param>
    public static ColumnTable Of(StudyPlan plan, IReadOnlyList<FailurePoint> points)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(points);
        return new ColumnTable(
            points.Count,
            [
                new TextColumn("requirement", i => points[i].Requirement.Definition.Key.Key),
                new RealColumn("limit", "", i => points[i].Requirement.Limit),
                new TextColumn("channel", i => points[i].Requirement.Channel.Text()),
                new TextColumn("kind", i => points[i].Requirement.Definition.Kind.Text()),
                new TextColumn("detector", i => plan.Detectors[points[i].Detector].Label),
                new TextColumn("key", i => points[i].Factor.Key.Name),
                new TextColumn("unit", i => points[i].Factor.Key.Unit),
                new TextColumn("held", i => HeldText(points[i])),
                new TextColumn("state", i => Word(points[i].State)),
                new RealColumn("level", "", i => points[i].Level),
                new RealColumn("level_low", "", i => Finite(points[i].Interval?.Low)),
                new RealColumn("level_high", "", i => Finite(points[i].Interval?.High)),
                new TextColumn("definition", i => points[i].Definition),
                new TextColumn("warnings", i => string.Join(' ', points[i].Warnings)),
            ]);
    }

    /// <summary>The held keys with their values, for example <c>oxygen.spo2_percent = 90; heart.rate_bpm = 70</c>; empty when nothing is held.</summary>
    /// <param name="point">The failure point.</param>
    public static string HeldText(FailurePoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        return string.Join("; ", point.Held.Select(h => $"{h.Factor.Key.Name} = {ValueText.Of(h.Value)}"));
    }

    /// <summary>Text form of a state.</summary>
    /// <param name="state">The state.</param>
    public static string Word(FailurePointState state) => state switch
    {
        FailurePointState.Found => "found",
        FailurePointState.MetEverywhere => "met_everywhere",
        FailurePointState.MetNowhere => "met_nowhere",
        _ => "no_curve",
    };

    /// <summary>A number that a file can hold: what is infinite has no value there.</summary>
    /// <param name="value">The number.</param>
    public static double? Finite(double? value) => value is double v && double.IsFinite(v) ? v : null;
}
