// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Reports.Vectors;

/// <summary>A channel of a case as a panel: samples, true events and the library's.</summary>
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
        double middle = values.Where(double.IsFinite).DefaultIfEmpty(0).Average();
        MarkKind? kind = KindOf(picture, format.Name);
        string what = kind is MarkKind known ? SetWords.Kind(known) : "event";
        return new SignalPanel
        {
            Title = format.Name.Text().Replace('_', ' '),
            Unit = format.Unit,
            TimesS = times,
            Values = values,
            TruthLegend = $"true {what}",
            DetectedLegend = $"the library's {what}",
            TruthMarks =
            [
                .. captured.Truth.Where(t => t.Channel == format.Name && t.Kind == kind).Select(t => captured.DeviceSeconds(channel, t.TimeNs)).Where(window.Holds).Select(Mark),
            ],
            DetectedMarks = [.. captured.Marks.Where(m => m.Channel == channel && m.Kind == kind).Select(m => Seconds(captured, m)).Where(window.Holds).Select(Mark)],
        };

        // Where samples are lost there is no curve to sit on: an event stays an event, at the height of the mean.
        PlotMark Mark(double seconds)
        {
            PlotMark mark = CapturedPanel.Mark(times, values, seconds);
            return mark.Value is double value && double.IsFinite(value) ? mark : mark with { Value = middle };
        }
    }

    // What a requirement asks of the channel; else what it usually shows.
    private static MarkKind? KindOf(CasePicture picture, ChannelName channel)
    {
        MarkKind? asked = picture.Case.Requirements.Where(r => r.Channel == channel && picture.Captured.Truth.Any(t => t.Channel == channel && t.Kind == r.Kind))
            .Select(r => (MarkKind?)r.Kind).FirstOrDefault(k => k is MarkKind known && known.Info().Sort == MarkSort.Event);
        return asked ?? channel switch
        {
            ChannelName.Ecg => MarkKind.RPeak,
            ChannelName.Infrared or ChannelName.Green or ChannelName.Red => MarkKind.PulseFootTangent,
            _ => null,
        };
    }

    private static double Seconds(FirstSeconds captured, in Mark mark) => captured.Format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256) * 1e-9;
}
