// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Reports.Figures;

/// <summary>A channel of a captured stretch as a panel: samples, truth and marks of one kind.</summary>
internal static class CapturedPanel
{
    private static readonly (ChannelName Channel, MarkKind Kind)[] s_shown =
    [
        (ChannelName.Ecg, MarkKind.RPeak),
        (ChannelName.Infrared, MarkKind.PulseFootTangent),
        (ChannelName.Red, MarkKind.PulseFootTangent),
        (ChannelName.Green, MarkKind.PulseFootTangent),
    ];

    /// <summary>The panel of a channel up to a time.</summary>
    /// <param name="first">What was captured.</param>
    /// <param name="channel">Number of the channel.</param>
    /// <param name="endSeconds">End of what is shown [s].</param>
    /// <param name="asked">Kind of event to show when it is one; else, and when null, the usual one of the channel.</param>
    internal static SignalPanel Of(FirstSeconds first, int channel, double endSeconds, MarkKind? asked = null)
    {
        ChannelFormat format = first.Format.Channels[channel];
        int count = 0;
        while (count < first.Values(channel).Count && first.Seconds(channel, count) < endSeconds)
        {
            count++;
        }

        double[] values = [.. first.Values(channel).Take(count)];
        double[] times = new double[count];
        for (int i = 0; i < times.Length; i++)
        {
            times[i] = first.Seconds(channel, i);
        }

        MarkKind? usual = s_shown.Where(s => s.Channel == format.Name).Select(s => (MarkKind?)s.Kind).FirstOrDefault();
        MarkKind? kind = asked is MarkKind k && first.Truth.Any(t => t.Channel == format.Name && t.Kind == k) ? asked : usual;
        string what = kind?.Text().Replace('_', ' ') ?? "";
        return new SignalPanel
        {
            Title = format.Name.Text().Replace('_', ' '),
            Unit = format.Unit,
            TimesS = times,
            Values = values,
            TruthLegend = $"true {what}",
            DetectedLegend = $"detected {what}",
            TruthMarks =
            [
                .. first.Truth
                    .Where(t => t.Channel == format.Name && t.Kind == kind)
                    .Select(t => first.DeviceSeconds(channel, t.TimeNs))
                    .Where(seconds => seconds < endSeconds)
                    .Select(seconds => Mark(times, values, seconds)),
            ],
            DetectedMarks =
            [
                .. first.Marks
                    .Where(m => m.Channel == channel && m.Kind == kind)
                    .Select(m => first.Format.DeviceTimeNs(m.Channel, m.Sample, m.Fraction256) * 1e-9)
                    .Where(seconds => seconds < endSeconds)
                    .Select(seconds => Mark(times, values, seconds)),
            ],
        };
    }

    // A mark sits on the curve: the straight line between the samples on either side.
    internal static PlotMark Mark(double[] times, double[] values, double seconds)
    {
        int after = Array.BinarySearch(times, seconds);
        after = after < 0 ? ~after : after;
        if (times.Length == 0)
        {
            return new PlotMark(seconds);
        }

        if (after <= 0 || after >= times.Length)
        {
            return new PlotMark(seconds, values[after <= 0 ? 0 : ^1]);
        }

        double share = (seconds - times[after - 1]) / (times[after] - times[after - 1]);
        return new PlotMark(seconds, values[after - 1] + (share * (values[after] - values[after - 1])));
    }
}
