// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>What a stacked panel must know of itself.</summary>
internal abstract class TimePanel
{
    internal abstract string Title { get; }

    internal abstract IReadOnlyList<LegendEntry> Legend { get; }

    internal abstract Span Times { get; }

    internal abstract Span Heights { get; }

    /// <summary>Share of the time axis left free at both ends.</summary>
    internal virtual double FreeTimeShare => 0;

    /// <summary>Whether the vertical axis carries numbers.</summary>
    internal virtual bool HasNumbers => true;

    /// <summary>Height of its data; null: as high as the others of the figure.</summary>
    internal virtual float? OwnHeightPx => null;

    /// <summary>Lines of mark labels that need room above the curve.</summary>
    internal virtual int LabelLines => 0;

    /// <summary>Range of the vertical axis: all values, a little air, and the room for labels above.</summary>
    internal (double Low, double High) HeightRange(float heightPx)
    {
        (double low, double high) = Heights.Padded(0.12);
        double labels = Math.Min(0.5, LabelLines * MarkLabels.LinePx / heightPx);
        return (low, high + ((high - low) * labels / (1 - labels)));
    }

    /// <summary>Adds the curves that go under the frame.</summary>
    internal abstract void AddTo(PanelPlot plot, (double Low, double High) times);

    /// <summary>Draws the marks on top, clipped to <paramref name="data"/>.</summary>
    internal abstract void DrawMarks(SKCanvas canvas, Pens pens, PanelPlot plot, SKRect data, (double Low, double High) times);

    internal static string WithUnit(string title, string unit) => unit.Length == 0 ? title : $"{title} ({unit})";

    /// <summary>Refuses arrays that cannot be a signal over time.</summary>
    internal static void Check(string title, double[] timesS, double[] values)
    {
        if (timesS.Length != values.Length)
        {
            throw new ArgumentException($"Panel \"{title}\": {timesS.Length} times but {values.Length} values; there must be as many.");
        }

        for (int i = 0; i < timesS.Length; i++)
        {
            if (!double.IsFinite(timesS[i]) || (i > 0 && timesS[i] < timesS[i - 1]))
            {
                throw new ArgumentException(FormattableString.Invariant($"Panel \"{title}\": time {i} is {timesS[i]:R} s; times must be finite and ascend."));
            }
        }
    }
}
