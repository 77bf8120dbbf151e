// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>How requirements and keys read on a page.</summary>
internal static class RequirementWords
{
    /// <summary>The figure with its unit, for example <c>r peak timing bias (ms), ecg</c>.</summary>
    internal static string Figure(RequirementOnRow requirement) =>
        $"{Name(requirement)}{(requirement.Definition.Key.Unit.Length == 0 ? "" : $" ({requirement.Definition.Key.Unit})")}, {Channel(requirement)}";

    /// <summary>The figure without its unit, where a value with the unit follows, for example <c>r peak timing bias, ecg</c>.</summary>
    internal static string Bare(RequirementOnRow requirement) => $"{Name(requirement)}, {Channel(requirement)}";

    /// <summary>The figure and what is required of it, for example <c>r peak timing bias, ecg: within ±2 ms</c>.</summary>
    internal static string Required(RequirementOnRow requirement) => $"{Bare(requirement)}: {Limit(requirement)}";

    /// <summary>What an axis of the figure shows, in words and with its unit, for example <c>mean of detection less truth (ms)</c>.</summary>
    internal static string Axis(RequirementOnRow requirement) => (requirement.Definition.Figure switch
    {
        RequiredFigure.Sensitivity => "share of true events that are found",
        RequiredFigure.PositivePredictivity => "share of detections that are true",
        RequiredFigure.TimingBias => "mean of detection less truth",
        RequiredFigure.TimingSd => "standard deviation of detection less truth",
        RequiredFigure.TimingP95 => "95th percentile of the timing error",
        RequiredFigure.ReadingBias => "mean of reading less truth",
        RequiredFigure.ReadingSd => "standard deviation of reading less truth",
        RequiredFigure.ReadingRms => "root mean square of reading less truth",
        RequiredFigure.ReadingAvailableShare => "share of usable time with a reading",
        RequiredFigure.ReadingWrongShare => "share of judged readings that are wrong",
        RequiredFigure.ReadingFirst => "time to the first reading",
        _ => throw new ArgumentOutOfRangeException(nameof(requirement)),
    }) + (requirement.Definition.Key.Unit.Length == 0 ? "" : $" ({requirement.Definition.Key.Unit})");

    /// <summary>A value of the figure with its unit, for example <c>2.5 ms</c>.</summary>
    internal static string Value(RequirementOnRow requirement, double? value) =>
        $"{Numbers.Short(value)}{(value is null || requirement.Definition.Key.Unit.Length == 0 ? "" : " " + requirement.Definition.Key.Unit)}";

    /// <summary>The requirement in a short sentence part, for example <c>≥ 0.99</c>.</summary>
    internal static string Limit(RequirementOnRow requirement)
    {
        string least = requirement.IsLeast ? "≥ " : HasSign(requirement) ? "within ±" : "≤ ";
        return least + Value(requirement, requirement.Limit);
    }

    /// <summary>Where the limit lies on an axis of the figure: on both sides of 0 for a figure with a sign.</summary>
    internal static double[] Limits(RequirementOnRow requirement) => HasSign(requirement) ? [requirement.Limit, -requirement.Limit] : [requirement.Limit];

    internal static string Channel(RequirementOnRow requirement) => requirement.Channel.Text().Replace('_', ' ');

    /// <summary>A key with its unit, for the axis of a figure.</summary>
    internal static string Key(KeyDefinition key) => key.Unit.Length == 0 ? key.Name : $"{key.Name} ({key.Unit})";

    /// <summary>Keys with the values at which they are held.</summary>
    internal static string Held(IEnumerable<(Factor Factor, object Value)> held) => string.Join(", ", held.Select(h => At(h.Factor, Numbers.Level(h.Value))));

    /// <summary>A key with a value and its unit, for example <c>heart.rate_bpm = 60 bpm</c>.</summary>
    internal static string At(Factor factor, string value) => $"{factor.Key.Name} = {value}{(factor.Key.Unit.Length == 0 ? "" : " " + factor.Key.Unit)}";

    private static string Name(RequirementOnRow requirement)
    {
        string name = requirement.Definition.Key.Key;
        foreach (string ending in new[] { "_min", "_max" })
        {
            name = name.EndsWith(ending, StringComparison.Ordinal) ? name[..^ending.Length] : name;
        }

        return Words.WithoutUnit(name, requirement.Definition.Key.Unit);
    }

    private static bool HasSign(RequirementOnRow requirement) =>
        requirement.Definition.Figure is RequiredFigure.TimingBias or RequiredFigure.ReadingBias;
}
