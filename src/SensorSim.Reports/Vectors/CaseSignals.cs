// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Making;

namespace SensorSim.Reports.Vectors;

/// <summary>A channel of a case as a panel.</summary>
internal static class CaseSignals
{
    /// <summary>The panel.</summary>
    /// <param name="picture">What can be shown.</param>
    /// <param name="channel">Number of the channel.</param>
    /// <param name="window">The stretch that is shown.</param>
    public static SignalPanel Panel(CasePicture picture, int channel, CaseWindow window)
    {
        FirstSeconds captured = picture.Captured;
        ChannelFormat format = captured.Format.Channels[channel];
        int[] shown = [.. Enumerable.Range(0, captured.Values(channel).Count).Where(i => window.Holds(captured.Seconds(channel, i)))];
        double[] times = [.. shown.Select(i => captured.Seconds(channel, i))];
        double[] values = [.. shown.Select(i => captured.Values(channel)[i])];
        MarkKind? kind = KindOf(picture, format.Name);
        string what = kind?.Text().Replace('_', ' ') ?? "event";
        return new SignalPanel
        {
            Title = format.Name.Text().Replace('_', ' '),
            Unit = format.Unit,
            TimesS = times,
            Values = values,
            TruthLegend = $"true {what}",
            DetectedLegend = $"the library's {what}",
            TruthLineLegend = "to be withheld",
            DetectedTriangleLegend = "the library's gate or rhythm",
            TruthMarks =
            [
                .. captured.Truth.Where(t => t.Channel == format.Name && t.Kind == kind).Select(t => captured.DeviceSeconds(channel, t.TimeNs))
                    .Where(window.Holds).Select(s => CapturedPanel.Mark(times, values, s)),
                .. Withheld(picture, format.Name, window),
            ],
            DetectedMarks =
            [
                .. captured.Marks.Where(m => m.Channel == channel && m.Kind == kind).Select(m => Seconds(captured, m))
                    .Where(window.Holds).Select(s => CapturedPanel.Mark(times, values, s)),
                .. captured.Marks.Where(m => m.Channel == channel && Word(m) is not null && window.Holds(Seconds(captured, m)))
                    .Select(m => new PlotMark(Seconds(captured, m), null, Word(m))),
            ],
        };
    }

    // What a requirement asks of the channel; else what it usually shows.
    private static MarkKind? KindOf(CasePicture picture, ChannelName channel)
    {
        MarkKind? asked = picture.Case.Requirements.Where(r => r.Channel == channel && picture.Captured.Truth.Any(t => t.Channel == channel && t.Kind == r.Kind))
            .Select(r => (MarkKind?)r.Kind).FirstOrDefault(k => MarkKinds.All.First(i => i.Kind == k).Sort == MarkSort.Event);
        return asked ?? channel switch
        {
            ChannelName.Ecg => MarkKind.RPeak,
            ChannelName.Infrared or ChannelName.Green or ChannelName.Red => MarkKind.PulseFootTangent,
            _ => null,
        };
    }

    // Where a requirement says that nothing may be given at all; what lies between beats is no place of its own. Stretches that overlap are shown as one.
    private static IEnumerable<PlotMark> Withheld(CasePicture picture, ChannelName channel, CaseWindow window)
    {
        HashSet<string> withheld = [.. picture.Case.Requirements.Where(r => r.Rule == RequirementRule.Withheld).Select(r => r.Id)];
        var stretches = new List<(double BeginS, double EndS)>();
        foreach (CaseDemand demand in picture.Demands
            .Where(d => d.Kind == DemandKind.Nothing && withheld.Contains(d.Requirement) && (d.Channel is null || d.Channel == channel)).OrderBy(d => d.BeginS))
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

        return stretches.SelectMany(s => new[] { new PlotMark(s.BeginS, null, "nothing from here"), new PlotMark(s.EndS, null, "to here") }).Where(m => window.Holds(m.TimeS));
    }

    private static string? Word(in Mark mark) => mark.Kind switch
    {
        MarkKind.GateOpen => "gate open",
        MarkKind.GateShut => FormattableString.Invariant($"gate shut ({mark.ValueMilli / 1000})"),
        MarkKind.JointGateOpen => "joint gate open",
        MarkKind.JointGateShut => FormattableString.Invariant($"joint gate shut ({mark.ValueMilli / 1000})"),
        MarkKind.IrregularRhythm => "irregular",
        MarkKind.RegularRhythm => "regular",
        MarkKind.PacingSpike => "pace",
        _ => null,
    };

    private static double Seconds(FirstSeconds captured, in Mark mark) => captured.Format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256) * 1e-9;
}
