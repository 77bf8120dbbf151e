// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Lays panels out under one another on a shared time axis.</summary>
internal static class TimeStack
{
    internal const int MostPanels = 8;
    private const int HeaderPx = 62;
    private const int TitleRowPx = 46;
    private const int FooterPx = 74;

    internal static int HeightPx(int panels) => HeaderPx + (panels * (TitleRowPx + DataPx(panels))) + FooterPx;

    internal static int HeightPx(IReadOnlyList<TimePanel> panels) => HeaderPx + panels.Sum(p => TitleRowPx + (int)DataPx(p, panels.Count)) + FooterPx;

    internal static void Check(int panels)
    {
        if (panels is < 1 or > MostPanels)
        {
            throw new ArgumentException($"A figure has 1 to {MostPanels} panels, not {panels}.", nameof(panels));
        }
    }

    internal static void Draw(SKCanvas canvas, IReadOnlyList<TimePanel> panels, string title)
    {
        Span all = new();
        foreach (TimePanel panel in panels)
        {
            Span own = panel.Times;
            if (!own.IsEmpty)
            {
                all.Include(own.Low);
                all.Include(own.High);
            }
        }

        (double Low, double High) times = all.Padded(panels[0].FreeTimeShare);
        using Pens pens = new();
        Fit.Text(canvas, pens, title, Ink.LeftPx, 42, SKTextAlign.Left, Ink.FigureTitlePx, Ink.Text, Ink.WidthPx - Ink.RightPx - Ink.LeftPx);
        float top = HeaderPx;
        for (int i = 0; i < panels.Count; i++)
        {
            TitleRow.Draw(
                canvas, pens, panels[i].Title, Ink.PanelTitlePx, panels[i].Legend, Ink.LeftPx, Ink.WidthPx - Ink.RightPx, top + TitleRowPx - 13);
            top += TitleRowPx;
            SKRect data = new(Ink.LeftPx, top, Ink.WidthPx - Ink.RightPx, top + DataPx(panels[i], panels.Count));
            DrawPanel(canvas, pens, panels[i], data, times, i == panels.Count - 1);
            top = data.Bottom;
        }

        pens.Text(canvas, "time (s)", (Ink.LeftPx + Ink.WidthPx - Ink.RightPx) / 2f, top + 58, SKTextAlign.Center, Ink.TextPx, Ink.Text);
    }

    private static void DrawPanel(SKCanvas canvas, Pens pens, TimePanel panel, SKRect data, (double Low, double High) times, bool isLast)
    {
        Span heights = panel.Heights;
        using PanelPlot plot = new(times, panel.HeightRange(data.Height), 10, data.Height > 200 ? 6 : 5, isLast);
        if (heights.IsEmpty || !panel.HasNumbers)
        {
            plot.HideYTicks();
        }

        panel.AddTo(plot, times);
        plot.Draw(canvas, data);
        pens.Frame(canvas, Ink.Frame, data);
        canvas.Save();
        canvas.ClipRect(data);
        panel.DrawMarks(canvas, pens, plot, data, times);
        canvas.Restore();
        if (heights.IsEmpty)
        {
            pens.Text(canvas, "no data", data.MidX, data.MidY, SKTextAlign.Center, Ink.PanelTitlePx, Ink.Frame);
        }
    }

    private static float DataPx(TimePanel panel, int panels) => panel.OwnHeightPx ?? DataPx(panels);

    private static int DataPx(int panels) => panels switch { <= 2 => 270, 3 => 220, 4 or 5 => 175, _ => 140 };
}
