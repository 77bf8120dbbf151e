// SPDX-License-Identifier: MIT
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
    internal static string Figure(RequirementOnRow requirement)
    {
        string name = requirement.Definition.Key.Key;
        string unit = requirement.Definition.Key.Unit;
        foreach (string ending in new[] { "_min", "_max", unit.Length == 0 ? "" : "_" + unit })
        {
            name = ending.Length > 0 && name.EndsWith(ending, StringComparison.Ordinal) ? name[..^ending.Length] : name;
        }

        return $"{name.Replace('_', ' ')}{(unit.Length == 0 ? "" : $" ({unit})")}, {Channel(requirement)}";
    }

    /// <summary>The requirement in a short sentence part, for example <c>≥ 0.99</c>.</summary>
    internal static string Limit(RequirementOnRow requirement)
    {
        string unit = requirement.Definition.Key.Unit;
        string least = requirement.IsLeast ? "≥" : HasSign(requirement) ? "within ±" : "≤";
        return $"{least} {Numbers.Short(requirement.Limit)}{(unit.Length == 0 ? "" : " " + unit)}";
    }

    /// <summary>Where the limit lies on an axis of the figure: on both sides of 0 for a figure with a sign.</summary>
    internal static double[] Limits(RequirementOnRow requirement) => HasSign(requirement) ? [requirement.Limit, -requirement.Limit] : [requirement.Limit];

    internal static string Channel(RequirementOnRow requirement) => requirement.Channel.Text().Replace('_', ' ');

    /// <summary>A key with its unit, for the axis of a figure.</summary>
    internal static string Key(KeyDefinition key) => key.Unit.Length == 0 ? key.Name : $"{key.Name} ({key.Unit})";

    /// <summary>Keys with the values at which they are held.</summary>
    internal static string Held(IEnumerable<(Factor Factor, object Value)> held) => string.Join(", ", held.Select(h =>
        $"{h.Factor.Key.Name} = {Numbers.Level(h.Value)}{(h.Factor.Key.Unit.Length == 0 ? "" : " " + h.Factor.Key.Unit)}"));

    private static bool HasSign(RequirementOnRow requirement) =>
        requirement.Definition.Figure is RequiredFigure.TimingBias or RequiredFigure.ReadingBias;
}
