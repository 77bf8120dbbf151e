// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Reports.Vectors;

/// <summary>Readings of a case as a panel: what is allowed as two lines, what the library gave as dots.</summary>
internal static class CaseReadings
{
    /// <summary>The panel; null when nothing of it lies in the stretch.</summary>
    /// <param name="picture">What can be shown.</param>
    /// <param name="requirement">A requirement about readings.</param>
    /// <param name="window">The stretch that is shown.</param>
    public static TimePanel? Panel(CasePicture picture, PlannedRequirement requirement, CaseWindow window)
    {
        FirstSeconds captured = picture.Captured;
        (double TimeS, double Value)[] given =
        [
            .. captured.Marks.Where(m => m.Kind == requirement.Kind && m.HasValue && (requirement.Channel is null || captured.Format.Channels[m.Channel].Name == requirement.Channel))
                .Select(m => (TimeS: captured.Format.DeviceTimeNs(m.Channel, m.Sample, m.Fraction256) * 1e-9, Value: m.ValueMilli / 1000.0))
                .Where(m => window.Holds(m.TimeS)).OrderBy(m => m.TimeS),
        ];

        (double BeginS, double EndS, double Low, double High)[] allowed =
        [
            .. picture.Demands.Where(d => d.Requirement == requirement.Id && d.Kind == DemandKind.Values && d.BeginS < window.EndS && d.EndS > window.BeginS)
                .Select(d => (Math.Max(d.BeginS, window.BeginS), Math.Min(d.EndS, window.EndS), d.Low, d.High)),
        ];
        return given.Length == 0 && allowed.Length == 0 ? null : new RangeTimePanel(
            requirement.Channel is null ? SetWords.Kind(requirement.Kind) : $"{SetWords.Kind(requirement.Kind)}, {requirement.Channel.Value.Text().Replace('_', ' ')}",
            SetWords.Unit(requirement.Kind),
            allowed,
            [.. given.Select(g => g.TimeS)],
            [.. given.Select(g => g.Value)]);
    }
}
