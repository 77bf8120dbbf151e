// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Drawing;
using SensorSim.Reports.StudyReports;
using SensorSim.Scoring.Statistics;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>Difference against mean of reading and truth, with bias, limits of agreement and their intervals; two panels in a row.</summary>
internal sealed class AgreementChart : Chart
{
    /// <summary>More signs than this no eye can tell apart; they would only make the file large.</summary>
    internal const int MostSigns = 3000;

    private const float LeftPx = 112;
    private const float GapPx = 100;
    private const int TitlePx = 76 + LinePx;
    private const int LinePx = 26;
    private const int DataPx = 400;
    private const int FooterPx = 84;
    private const float RightRoomPx = 118;

    private static readonly SKColor s_band = new(0xE3, 0xEE, 0xF6);

    private readonly ChartHead _head;
    private readonly IReadOnlyList<(AgreementData Data, AgreementLimits? Limits)> _panels;

    internal AgreementChart(string title, IReadOnlyList<(AgreementData Data, AgreementLimits? Limits)> panels)
    {
        _head = new ChartHead(title, []);
        _panels = panels;
    }

    internal override int HeightPx => _head.HeightPx + ((_panels.Count + 1) / 2 * (TitlePx + DataPx + FooterPx));

    internal override void Draw(SKCanvas canvas, Pens pens)
    {
        _head.Draw(canvas, pens);
        int columns = Math.Min(2, _panels.Count);
        float width = (Ink.WidthPx - LeftPx - RightRoomPx - ((columns - 1) * (GapPx + RightRoomPx))) / columns;
        for (int i = 0; i < _panels.Count; i++)
        {
            float left = LeftPx + (i % columns * (width + GapPx + RightRoomPx));
            float top = _head.HeightPx + (i / columns * (TitlePx + DataPx + FooterPx)) + TitlePx;
            DrawPanel(canvas, pens, _panels[i].Data, _panels[i].Limits, new SKRect(left, top, left + width, top + DataPx));
        }
    }

    private static void DrawPanel(SKCanvas canvas, Pens pens, AgreementData agreement, AgreementLimits? limits, SKRect data)
    {
        string unit = agreement.Unit.Length == 0 ? "" : $" ({agreement.Unit})";
        (double Mean, double Difference)[] signs =
        [
            .. agreement.Pairs.Select(p => ((p.Truth + p.Estimate) / 2, p.Estimate - p.Truth)).Where(p => double.IsFinite(p.Item1) && double.IsFinite(p.Item2)),
        ];
        int every = Math.Max(1, (signs.Length + MostSigns - 1) / MostSigns);
        Span x = new();
        Span y = new();
        foreach ((double mean, double difference) in signs)
        {
            x.Include(mean);
            y.Include(difference);
        }

        Include(ref y, limits);
        Plotting plot = new(data, AxisScale.Of(x, false, 8, 0.04), AxisScale.Of(y, false, 8, 0.06));
        Fit.Text(canvas, pens, agreement.Title, data.Left, data.Top - 44 - LinePx, SKTextAlign.Left, Ink.PanelTitlePx, Ink.Text, data.Width);
        string drawn = every > 1 ? FormattableString.Invariant($"every {Ordinal(every)} of {signs.Length} pairs drawn") : "";
        string shown = string.Join("; ", new[] { agreement.Runs, drawn }.Where(t => t.Length > 0));
        Fit.Text(canvas, pens, shown, data.Left, data.Top - 14 - LinePx, SKTextAlign.Left, Ink.MarkLabelPx, Ink.Text, data.Width);
        Fit.Text(canvas, pens, $"reading less truth{unit}", data.Left, data.Top - 14, SKTextAlign.Left, Ink.MarkLabelPx, Ink.Text, data.Width);
        DrawBands(canvas, pens, plot, limits);
        plot.Grid(canvas, pens);
        using SeriesStyle style = new(0);
        float size = signs.Length > 400 ? 2.4f : 4.2f;
        for (int i = 0; i < signs.Length; i += every)
        {
            style.Sign(canvas, plot.AtX(signs[i].Mean), plot.AtY(signs[i].Difference), size);
        }

        DrawLimits(canvas, pens, plot, limits);
        plot.Frame(canvas, pens, data.Bottom);
        if (signs.Length == 0)
        {
            pens.Text(canvas, "no pairs", data.MidX, data.MidY, SKTextAlign.Center, Ink.PanelTitlePx, Ink.Frame);
        }

        Fit.Text(canvas, pens, $"mean of reading and truth{unit}", data.MidX, data.Bottom + 58, SKTextAlign.Center, Ink.MarkLabelPx, Ink.Text, data.Width);
    }

    private static void Include(ref Span y, AgreementLimits? limits)
    {
        if (limits is null)
        {
            return;
        }

        y.Include(limits.Low);
        y.Include(limits.High);
        y.Include(limits.LowInterval?.Low ?? double.NaN);
        y.Include(limits.HighInterval?.High ?? double.NaN);
    }

    private static void DrawBands(SKCanvas canvas, Pens pens, Plotting plot, AgreementLimits? limits)
    {
        foreach (Interval? interval in new[] { limits?.BiasInterval, limits?.LowInterval, limits?.HighInterval })
        {
            if (interval is Interval i)
            {
                pens.Box(canvas, s_band, new SKRect(plot.Data.Left, plot.InsideY(i.High), plot.Data.Right, plot.InsideY(i.Low)));
            }
        }
    }

    // The numbers stand at the right edge; where two lines lie close together they move apart.
    private static void DrawLimits(SKCanvas canvas, Pens pens, Plotting plot, AgreementLimits? limits)
    {
        if (limits is null)
        {
            return;
        }

        float free = float.NegativeInfinity;
        foreach ((double value, bool isDashed) in new[] { (limits.High, true), (limits.Bias, false), (limits.Low, true) })
        {
            float y = plot.InsideY(value);
            pens.Line(canvas, Ink.Text, 2, plot.Data.Left, y, plot.Data.Right, y, isDashed);
            float text = Math.Max(y + 6, free);
            pens.Text(canvas, OnAxis(value, limits.High - limits.Low), plot.Data.Right + 8, text, SKTextAlign.Left, 17, Ink.Text);
            free = text + 19;
        }
    }

    // Digits that the width of the limits gives a meaning to: two beyond its first.
    private static string OnAxis(double value, double width)
    {
        int digits = width > 0 ? Math.Clamp(2 - (int)Math.Floor(Math.Log10(width)), 0, 9) : 3;
        string text = Math.Round(value, digits).ToString($"F{digits}", CultureInfo.InvariantCulture);
        return text.Any(c => c is >= '1' and <= '9') ? text : text.TrimStart('-');
    }

    private static string Ordinal(int number) => (number, number % 10, number % 100) switch
    {
        (2, _, _) => "second",
        (3, _, _) => "third",
        (_, 1, not 11) => FormattableString.Invariant($"{number}st"),
        (_, 2, not 12) => FormattableString.Invariant($"{number}nd"),
        (_, 3, not 13) => FormattableString.Invariant($"{number}rd"),
        _ => FormattableString.Invariant($"{number}th"),
    };
}
