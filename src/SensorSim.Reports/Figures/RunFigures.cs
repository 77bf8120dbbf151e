// SPDX-License-Identifier: MIT
using System.Runtime.ExceptionServices;
using SensorSim.Reports.Drawing;
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
        List<SignalPanel> signals = [.. Enumerable.Range(0, first.Format.Channels.Count).Select(c => CapturedPanel.Of(first, c, SignalSeconds))];
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

    private static ErrorPanel Panel(EventScore score) => Panel(
        $"{score.Channel.Text()}: {Words.WithoutUnit(score.Kind.Text(), "")}",
        score.Histogram,
        new ErrorSummary(score.TimedCount, score.TimingBiasMs ?? double.NaN, score.TimingSdMs ?? double.NaN, score.TimingP95Ms ?? double.NaN));

    private static ErrorPanel Panel(ReadingScore reading) => Panel(
        $"{reading.Channel.Text()}: {Words.WithoutUnit(reading.Kind.Text(), reading.Unit)}",
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

        return new ErrorPanel
        {
            Title = title,
            FirstBinMs = first > last ? 0 : first * histogram.BinWidth,
            BinWidthMs = histogram.BinWidth,
            Counts = first > last ? [] : [.. Enumerable.Range(first, last - first + 1).Select(histogram.CountIn)],
            BeyondCount = histogram.BeyondCount,
            Summary = summary,
        };
    }
}
