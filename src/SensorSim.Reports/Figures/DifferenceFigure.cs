// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Expectations;

namespace SensorSim.Reports.Figures;

/// <summary>The picture of the first mark that a detector gave differently than the library: the samples around it, with the marks of both.</summary>
public static class DifferenceFigure
{
    /// <summary>Writes <c>difference</c> as PNG and as SVG.</summary>
    /// <param name="pathOf">Where a file of a name goes.</param>
    /// <param name="title">Title.</param>
    /// <param name="scene">The samples and marks.</param>
    public static void Write(Func<string, string> pathOf, string title, DifferenceScene scene)
    {
        ArgumentNullException.ThrowIfNull(pathOf);
        ArgumentNullException.ThrowIfNull(scene);
        List<SignalPanel> panels = [.. Enumerable.Range(0, scene.Channels.Count).Select(place => Panel(scene, place))];
        SignalFigure.Write(panels, title, pathOf("difference.png"));
        SignalFigure.Write(panels, title, pathOf("difference.svg"));
    }

    private static SignalPanel Panel(DifferenceScene scene, int place)
    {
        double[] values = scene.Values[place];
        double[] times = new double[values.Length];
        for (int i = 0; i < times.Length; i++)
        {
            times[i] = scene.TimeS(place, i);
        }

        int channel = scene.Channels[place];
        ChannelFormat format = scene.Format.Channels[channel];
        Mark shown = scene.Difference.Shown;

        // The channel that the mark is paired with shows what it is paired with: beats.
        MarkKind kind = channel == shown.Channel ? shown.Kind : MarkKind.RPeak;
        string what = kind.Text().Replace('_', ' ');
        return new SignalPanel
        {
            Title = format.Name.Text().Replace('_', ' '),
            Unit = format.Unit,
            TimesS = times,
            Values = values,
            TruthLegend = $"library: {what}",
            DetectedLegend = $"under test: {what}",
            TruthMarks = Marks(scene, scene.Expected, channel, kind, times, values),
            DetectedMarks = Marks(scene, scene.Given, channel, kind, times, values),
        };
    }

    private static List<PlotMark> Marks(DifferenceScene scene, IReadOnlyList<Mark> marks, int channel, MarkKind kind, double[] times, double[] values) =>
    [
        .. marks
            .Where(m => m.Channel == channel && m.Kind == kind)
            .Select(m => CapturedPanel.Mark(times, values, scene.Format.DeviceTimeNs(m.Channel, m.Sample, m.Fraction256) * 1e-9)),
    ];
}
