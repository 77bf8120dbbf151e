// SPDX-License-Identifier: MIT
using SensorSim.Studies.Running;

namespace SensorSim.Reports.Figures;

/// <summary>The picture of a moment of a run: every signal about it, with truth and marks.</summary>
public static class MomentFigure
{
    /// <summary>Writes <c>signals</c> as PNG and as SVG.</summary>
    /// <param name="pathOf">Where a file of a name goes.</param>
    /// <param name="title">Title.</param>
    /// <param name="around">The stretch.</param>
    public static void Write(Func<string, string> pathOf, string title, FirstSeconds around)
    {
        ArgumentNullException.ThrowIfNull(pathOf);
        ArgumentNullException.ThrowIfNull(around);
        List<SignalPanel> panels = [.. Enumerable.Range(0, around.Format.Channels.Count).Select(c => CapturedPanel.Of(around, c, double.PositiveInfinity))];
        SignalFigure.Write(panels, title, pathOf("signals.png"));
        SignalFigure.Write(panels, title, pathOf("signals.svg"));
    }
}
