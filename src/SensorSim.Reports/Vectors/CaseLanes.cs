// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Reports.Vectors;

/// <summary>The rows of a case: each requirement that forbids something or wants something told, then the library's gates.</summary>
internal static class CaseLanes
{
    private const int MostRequirements = 10;

    private static readonly (MarkKind Open, MarkKind Shut, string What)[] s_gates =
        [(MarkKind.GateOpen, MarkKind.GateShut, "gate of"), (MarkKind.JointGateOpen, MarkKind.JointGateShut, "joint gate, told with")];

    /// <summary>The rows.</summary>
    /// <param name="picture">What can be shown.</param>
    /// <param name="window">The stretch that is shown.</param>
    /// <param name="channels">Numbers of the channels whose gates are shown.</param>
    /// <param name="readings">Requirements about readings that have no panel of their own.</param>
    public static IReadOnlyList<CaseLane> Of(CasePicture picture, CaseWindow window, IReadOnlyList<int> channels, IReadOnlyList<PlannedRequirement> readings)
    {
        FirstSeconds captured = picture.Captured;
        List<CaseLane> lanes =
        [
            .. picture.Case.Deviations.Count == 0 ? Array.Empty<CaseLane>()
                : [new CaseLane($"known to be missed by the library: {string.Join(", ", picture.Case.Deviations.Select(d => d.RequirementId))}", [], [], [], [])],
            .. picture.Case.Requirements.Where(r => r.Rule is RequirementRule.Withheld or RequirementRule.Shown).Concat(readings).Take(MostRequirements)
                .Select(r => Lane(picture, r, window)),
        ];
        foreach ((MarkKind open, MarkKind shut, string what) in s_gates)
        {
            lanes.AddRange(channels.Where(c => captured.Marks.Any(m => m.Channel == c && (m.Kind == open || m.Kind == shut)))
                .Select(c => Gate(captured, c, open, shut, $"{what} {captured.Format.Channels[c].Name.Text().Replace('_', ' ')}", window)));
        }

        foreach (int channel in channels.Where(c => captured.Marks.Any(m => m.Channel == c && m.Kind == MarkKind.PacingSpike)))
        {
            lanes.Add(new CaseLane("pacing spikes told of", [], [], [], [.. Times(captured, m => m.Channel == channel && m.Kind == MarkKind.PacingSpike, window).Select(s => (s, ""))]));
        }

        return lanes;
    }

    private static CaseLane Lane(CasePicture picture, PlannedRequirement requirement, CaseWindow window)
    {
        FirstSeconds captured = picture.Captured;
        bool isForbidden = requirement.Rule == RequirementRule.Withheld;
        (double, double)[] stretches = Joined(picture.Demands.Where(d => d.Requirement == requirement.Id && d.Kind == (isForbidden ? DemandKind.Nothing : DemandKind.Something)), window);
        string channel = requirement.Channel is ChannelName name ? $", {name.Text().Replace('_', ' ')}" : "";
        string value = requirement.Rule == RequirementRule.Shown && requirement.Value is double wanted && IsShut(requirement.Kind) ? $" ({SetWords.GateReason(wanted)})" : "";
        string unit = requirement.Kind.Info().Sort == MarkSort.Reading ? SetWords.Unit(requirement.Kind) : "";
        return new CaseLane(
            $"{requirement.Id}: {(isForbidden ? "no " : "")}{SetWords.Kind(requirement.Kind)}{value}{channel}{(unit.Length > 0 ? $" ({unit})" : "")}",
            isForbidden ? stretches : [],
            requirement.Rule == RequirementRule.Shown ? stretches : [],
            [],
            [
                .. captured.Marks.Where(m => m.Kind == requirement.Kind && (requirement.Channel is null || captured.Format.Channels[m.Channel].Name == requirement.Channel))
                    .Select(m => (TimeS: Seconds(captured, m), Word: Word(m))).Where(g => window.Holds(g.TimeS)).OrderBy(g => g.TimeS),
            ]);
    }

    private static CaseLane Gate(FirstSeconds captured, int channel, MarkKind open, MarkKind shut, string text, CaseWindow window)
    {
        var stretches = new List<(double, double)>();
        double? since = null;
        foreach (Mark mark in captured.Marks.Where(m => m.Channel == channel && (m.Kind == open || m.Kind == shut)).OrderBy(m => Seconds(captured, m)))
        {
            if (mark.Kind == open)
            {
                since ??= Seconds(captured, mark);
            }
            else if (since is double begin)
            {
                stretches.Add((begin, Seconds(captured, mark)));
                since = null;
            }
        }

        if (since is double last)
        {
            stretches.Add((last, captured.EndSeconds));
        }

        return new CaseLane(
            text,
            [],
            [],
            Inside(stretches, window),
            [.. captured.Marks.Where(m => m.Channel == channel && m.Kind == shut).Select(m => (TimeS: Seconds(captured, m), Word: Word(m))).Where(g => window.Holds(g.TimeS)).OrderBy(g => g.TimeS)]);
    }

    // Stretches that touch or overlap are one.
    private static (double BeginS, double EndS)[] Joined(IEnumerable<CaseDemand> demands, CaseWindow window)
    {
        var stretches = new List<(double BeginS, double EndS)>();
        foreach (CaseDemand demand in demands.OrderBy(d => d.BeginS))
        {
            if (stretches.Count > 0 && demand.BeginS <= stretches[^1].EndS)
            {
                stretches[^1] = (stretches[^1].BeginS, Math.Max(stretches[^1].EndS, demand.EndS));
            }
            else
            {
                stretches.Add((demand.BeginS, demand.EndS));
            }
        }

        return Inside(stretches, window);
    }

    private static (double BeginS, double EndS)[] Inside(IEnumerable<(double BeginS, double EndS)> stretches, CaseWindow window) =>
        [.. stretches.Where(s => s.BeginS < window.EndS && s.EndS > window.BeginS).Select(s => (Math.Max(s.BeginS, window.BeginS), Math.Min(s.EndS, window.EndS)))];

    private static IEnumerable<double> Times(FirstSeconds captured, Func<Mark, bool> isShown, CaseWindow window) =>
        captured.Marks.Where(isShown).Select(m => Seconds(captured, m)).Where(window.Holds).Order();

    private static string Word(in Mark mark)
    {
        if (IsShut(mark.Kind))
        {
            return SetWords.GateReason(mark.HasValue ? mark.ValueMilli / 1000.0 : 0);
        }

        return mark.HasValue && mark.Kind.Info().Sort == MarkSort.Reading ? FormattableString.Invariant($"{mark.ValueMilli / 1000.0:0.#}") : "";
    }

    private static bool IsShut(MarkKind kind) => kind is MarkKind.GateShut or MarkKind.JointGateShut;

    private static double Seconds(FirstSeconds captured, in Mark mark) => captured.Format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256) * 1e-9;
}
