// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;
using SensorSim.Scoring;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Running;
using SensorSim.Studies.WorstCases;

namespace SensorSim.Reports.StudyReports;

/// <summary>Signals around the moment at which a run falls short.</summary>
internal static class WorstFigures
{
    internal static IReadOnlyList<StudyFigure> Of(StudyPlan plan, IReadOnlyList<WorstCase> cases) =>
    [
        .. cases.Select((c, i) =>
        {
            SignalPanel[] panels = Panels(c);
            string title = Title(plan, c);
            return new StudyFigure(
                FormattableString.Invariant($"worst_case_{i + 1}"),
                format =>
                {
                    using var stream = new MemoryStream();
                    SignalFigure.Write(panels, title, stream, format);
                    return stream.ToArray();
                },
                [c.What, "Truth: open signs; the detector's marks: filled signs; time of the device. \"Missed\" and \"extra\" stand at scored events that pair with nothing."]);
        }),
    ];

    private static string Title(StudyPlan plan, WorstCase worst) => FormattableString.Invariant(
        $"Run {worst.Run}, {plan.Detectors[worst.Key.Detector].Label}: {RequirementWords.Bare(worst.Requirement)}: {RequirementWords.Value(worst.Requirement, worst.Figure)}, required {RequirementWords.Limit(worst.Requirement)}{(worst.IsPointMet ? "; the point as a whole meets it" : "")}");

    private static SignalPanel[] Panels(WorstCase worst)
    {
        FirstSeconds capture = worst.Capture;
        int own = capture.Format.IndexOf(worst.Requirement.Channel);
        IEnumerable<int> channels = WorstChannels.Of(worst.Requirement, capture.Format);
        return
        [
            .. channels.Where(c => c == own || Varies(capture.Values(c)))
                .Select(c => c == own ? WithLabels(CapturedPanel.Of(capture, c, capture.EndSeconds, worst.Requirement.Definition.Kind), worst, c) : CapturedPanel.Of(capture, c, capture.EndSeconds)),
            .. WorstChannels.NeedsMovement(worst.Requirement) ? Movement(capture) : [],
        ];
    }

    // How strongly the wearer moves, whichever way the sensor lies; at rest it is the 1 g of gravity.
    private static IEnumerable<SignalPanel> Movement(FirstSeconds capture)
    {
        int[] axes = [.. WorstChannels.Axes.Select(capture.Format.IndexOf)];
        if (axes.Any(a => a < 0))
        {
            return [];
        }

        SignalPanel[] each = [.. axes.Select(a => CapturedPanel.Of(capture, a, capture.EndSeconds))];
        int count = each.Min(p => p.Values.Length);
        double[] magnitude = [.. Enumerable.Range(0, count).Select(i => Math.Sqrt(each.Sum(p => p.Values[i] * p.Values[i])))];
        return Varies(magnitude) ? [each[0] with { Title = "magnitude of acceleration", TimesS = each[0].TimesS[..count], Values = magnitude }] : [];
    }

    // A channel that stands still tells nothing and takes room from the others.
    private static bool Varies(IReadOnlyList<double> values)
    {
        double[] known = [.. values.Where(double.IsFinite)];
        return known.Length > 0 && known.Max() > known.Min();
    }

    private static SignalPanel WithLabels(SignalPanel panel, WorstCase worst, int channel)
    {
        double[] missed = [.. worst.Unpaired.Where(e => e.TruthNs is not null).Select(e => worst.Capture.DeviceSeconds(channel, e.TruthNs!.Value))];
        double[] extra = [.. worst.Unpaired.Where(e => e.TruthNs is null).Select(e => worst.Capture.DeviceSeconds(channel, e.DetectionNs!.Value))];
        return panel with
        {
            TruthMarks = [.. panel.TruthMarks.Select(m => Labelled(m, missed, "missed"))],
            DetectedMarks = [.. panel.DetectedMarks.Select(m => Labelled(m, extra, "extra"))],
        };
    }

    // Times went through body time and back: the same event to the microsecond.
    private static PlotMark Labelled(PlotMark mark, double[] times, string label) =>
        times.Any(t => Math.Abs(t - mark.TimeS) < 2e-6) ? mark with { Label = label } : mark;
}
