// SPDX-License-Identifier: MIT
using System.Runtime.ExceptionServices;
using SensorSim.Scoring.Report;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Reports.Figures;

/// <summary>The pictures of a run: the first seconds with truth and marks, an ECG strip, and the distribution of the errors.</summary>
public static class RunFigures
{
    // More would no longer show the shape of a beat.
    private const double SignalSeconds = 10;

    private static readonly (ChannelName Channel, MarkKind Kind)[] s_shown =
    [
        (ChannelName.Ecg, MarkKind.RPeak),
        (ChannelName.Infrared, MarkKind.PulseFootTangent),
        (ChannelName.Red, MarkKind.PulseFootTangent),
        (ChannelName.Green, MarkKind.PulseFootTangent),
    ];

    /// <summary>Writes <c>signals</c>, <c>strip</c> (when there is an ECG) and <c>errors</c> (when there are any), each as PNG and as SVG.</summary>
    /// <param name="pathOf">Where a file of a name goes.</param>
    /// <param name="title">Title of the run.</param>
    /// <param name="first">The first seconds, from 0 to at most <see cref="StripPanel.LongestS"/>; <c>signals</c> shows ten of them.</param>
    /// <param name="report">The scores.</param>
    public static void Write(Func<string, string> pathOf, string title, FirstSeconds first, ScoreReport report)
    {
        ArgumentNullException.ThrowIfNull(pathOf);
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(report);
        List<SignalPanel> signals = [.. Enumerable.Range(0, first.Format.Channels.Count).Select(c => Panel(first, c, SignalSeconds))];
        List<ErrorPanel> errors = [.. report.Scores.Where(s => s.TimedCount > 0).Select(Panel), .. report.Readings.Where(r => r.Kind == MarkKind.ArrivalTimeMs && r.Count > 0).Select(Panel)];
        List<Action> figures =
        [
            () => SignalFigure.Write(signals, title, pathOf("signals.png")),
            () => SignalFigure.Write(signals, title, pathOf("signals.svg")),
        ];
        if (RunStrip.Of(first) is StripPanel panel)
        {
            figures.Add(() => StripFigure.Write(panel, title, pathOf("strip.png")));
            figures.Add(() => StripFigure.Write(panel, title, pathOf("strip.svg")));
        }

        if (errors.Count > 0)
        {
            figures.Add(() => ErrorFigure.Write(errors, title, pathOf("errors.png")));
            figures.Add(() => ErrorFigure.Write(errors, title, pathOf("errors.svg")));
        }

        try
        {
            Parallel.Invoke([.. figures]);
        }
        catch (AggregateException e)
        {
            // A full disk is what it is, whichever figure met it first.
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
    }

    /// <summary>The panel of a channel.</summary>
    /// <param name="first">What was kept of the run.</param>
    /// <param name="channel">Channel number.</param>
    /// <param name="untilS">Where the panel ends at the latest [s].</param>
    internal static SignalPanel Panel(FirstSeconds first, int channel, double untilS)
    {
        ChannelFormat format = first.Format.Channels[channel];
        int count = 0;
        while (count < first.Values(channel).Count && first.Seconds(channel, count) < untilS)
        {
            count++;
        }

        double[] values = [.. first.Values(channel).Take(count)];
        double[] times = new double[count];
        for (int i = 0; i < times.Length; i++)
        {
            times[i] = first.Seconds(channel, i);
        }

        MarkKind? kind = s_shown.Where(s => s.Channel == format.Name).Select(s => (MarkKind?)s.Kind).FirstOrDefault();
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
                    .Where(seconds => seconds < untilS)
                    .Select(seconds => Mark(times, values, seconds)),
            ],
            DetectedMarks =
            [
                .. first.Marks
                    .Where(m => m.Channel == channel && m.Kind == kind)
                    .Select(m => first.Format.DeviceTimeNs(m.Channel, m.Sample, m.Fraction256) * 1e-9)
                    .Where(seconds => seconds < untilS)
                    .Select(seconds => Mark(times, values, seconds)),
            ],
        };
    }

    // A mark sits on the curve: the straight line between the samples on either side.
    private static PlotMark Mark(double[] times, double[] values, double seconds)
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

    private static ErrorPanel Panel(EventScore score) => Panel(
        $"{score.Channel.Text()}: {score.Kind.Text().Replace('_', ' ')}",
        score.Histogram,
        new ErrorSummary(score.TimedCount, score.TimingBiasMs ?? double.NaN, score.TimingSdMs ?? double.NaN, score.TimingP95Ms ?? double.NaN));

    private static ErrorPanel Panel(ReadingScore reading) => Panel(
        $"{reading.Channel.Text()}: {reading.Kind.Text().Replace('_', ' ')}",
        reading.Histogram,
        new ErrorSummary(reading.Count, reading.Bias ?? double.NaN, reading.Sd ?? double.NaN, reading.P95Abs ?? double.NaN));

    private static ErrorPanel Panel(string title, ErrorHistogram histogram, ErrorSummary summary)
    {
        int first = histogram.BinsPerSide;
        int last = -histogram.BinsPerSide - 1;
        for (int bin = -histogram.BinsPerSide; bin < histogram.BinsPerSide; bin++)
        {
            if (histogram.CountIn(bin) > 0)
            {
                first = Math.Min(first, bin);
                last = bin;
            }
        }

        string outside = histogram.BeyondCount == 0 ? "" : FormattableString.Invariant($" ({histogram.BeyondCount} beyond the axis)");
        return new ErrorPanel
        {
            Title = title + outside,
            FirstBinMs = first > last ? 0 : first * histogram.BinWidth,
            BinWidthMs = histogram.BinWidth,
            Counts = first > last ? [] : [.. Enumerable.Range(first, last - first + 1).Select(histogram.CountIn)],
            Summary = summary,
        };
    }
}
