// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Reports.Figures;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Making;

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

        // Upper limits, a break, lower limits would need times that turn back: one line goes to and fro at each row instead.
        CaseDemand[] demands = [.. picture.Demands.Where(d => d.Requirement == requirement.Id && d.Kind == DemandKind.Values).OrderBy(d => d.BeginS)];
        List<double> times = [];
        List<double> limits = [];
        foreach (CaseDemand demand in demands)
        {
            double begin = Math.Max(demand.BeginS, window.BeginS);
            double end = Math.Min(demand.EndS, window.EndS);
            if (begin < end)
            {
                times.AddRange([begin, begin, end, end, end]);
                limits.AddRange([demand.High, demand.Low, demand.Low, demand.High, double.NaN]);
            }
        }

        string unit = MarkKinds.All.First(k => k.Kind == requirement.Kind).ValueUnit;
        return given.Length == 0 && times.Count == 0 ? null : new TrendTimePanel(new TrendPanel
        {
            Title = requirement.Kind.Text().Replace('_', ' '),
            Unit = unit,
            TruthTimesS = [.. times.Order()],
            TruthValues = [.. limits],
            ReadingTimesS = [.. given.Select(g => g.TimeS)],
            ReadingValues = [.. given.Select(g => g.Value)],
            TruthLegend = "allowed range",
            ReadingLegend = "the library's readings",
        });
    }
}
