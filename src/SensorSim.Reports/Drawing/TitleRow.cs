// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>A title on the left and a legend on the right of one line, outside the data; the legend gets smaller first, then the title.</summary>
internal static class TitleRow
{
    private const float SignPx = 34;
    private const float AfterSignPx = 8;
    private const float BetweenPx = 28;
    private const float SmallestPx = 12;

    internal static void Draw(
        SKCanvas canvas, Pens pens, string title, float titlePx, IReadOnlyList<LegendEntry> legend, float left, float right, float baseline)
    {
        float titleWidth = Width(title, titlePx);
        float room = right - left - titleWidth - BetweenPx;
        float sizePx = Ink.TextPx;
        while (sizePx > SmallestPx && LegendWidth(legend, sizePx) > room)
        {
            sizePx -= 1;
        }

        float x = right - LegendWidth(legend, sizePx);
        Fit.Text(canvas, pens, title, left, baseline, SKTextAlign.Left, titlePx, Ink.Text, (legend.Count == 0 ? right : x - BetweenPx) - left);
        foreach (LegendEntry entry in legend)
        {
            Sign(canvas, pens, entry.Symbol, x, baseline - (0.36f * sizePx));
            x += SignPx + AfterSignPx;
            pens.Text(canvas, entry.Text, x, baseline, SKTextAlign.Left, sizePx, Ink.Text);
            x += Width(entry.Text, sizePx) + BetweenPx;
        }
    }

    internal static float Width(string text, float sizePx)
    {
        using SKFont font = PlotFont.Sized(sizePx);
        return font.MeasureText(text);
    }

    private static float LegendWidth(IReadOnlyList<LegendEntry> legend, float sizePx)
    {
        float width = 0;
        foreach (LegendEntry entry in legend)
        {
            width += SignPx + AfterSignPx + Width(entry.Text, sizePx) + BetweenPx;
        }

        return Math.Max(0, width - BetweenPx);
    }

    private static void Sign(SKCanvas canvas, Pens pens, Symbol symbol, float x, float y)
    {
        float middle = x + (SignPx * 0.65f);
        switch (symbol)
        {
            case Symbol.HollowCircle:
                pens.Circle(canvas, middle, y);
                break;
            case Symbol.FilledDiamond:
                pens.Diamond(canvas, middle, y);
                break;
            case Symbol.VerticalLine:
                pens.Line(canvas, Ink.Truth, Ink.MarkWidthPx, middle, y - 10, middle, y + 10);
                break;
            case Symbol.FilledTriangle:
                pens.Triangle(canvas, middle, y + 7);
                break;
            case Symbol.FilledDot:
                pens.Dot(canvas, middle, y);
                break;
            case Symbol.SmallCircle:
            case Symbol.Cross:
            case Symbol.OpenTriangle:
            case Symbol.ShortTick:
                pens.Small(canvas, symbol, middle, y);
                break;
            case Symbol.BlueLine:
                pens.Line(canvas, Ink.Truth, Ink.MarkWidthPx, x, y, x + SignPx, y);
                break;
            case Symbol.VermilionLine:
                pens.Line(canvas, Ink.Detected, Ink.MarkWidthPx, x, y, x + SignPx, y);
                break;
            case Symbol.BlueDashes:
                pens.Line(canvas, Ink.Truth, Ink.MarkWidthPx, x, y, x + SignPx, y, dashed: true);
                break;
            case Symbol.VermilionDashes:
                pens.Line(canvas, Ink.Detected, Ink.MarkWidthPx, x, y, x + SignPx, y, dashed: true);
                break;
            case Symbol.PaleBox:
                pens.Box(canvas, Ink.TruthPale, new SKRect(x, y - 8, x + SignPx, y + 8));
                pens.Frame(canvas, Ink.Truth, new SKRect(x, y - 8, x + SignPx, y + 8));
                break;
            case Symbol.HollowBox:
                pens.Frame(canvas, Ink.Truth, new SKRect(x, y - 8, x + SignPx, y + 8));
                break;
            default:
                pens.Box(canvas, Ink.Gap, new SKRect(x, y - 9, x + SignPx, y + 9));
                pens.Frame(canvas, Ink.Frame, new SKRect(x, y - 9, x + SignPx, y + 9));
                break;
        }
    }
}
