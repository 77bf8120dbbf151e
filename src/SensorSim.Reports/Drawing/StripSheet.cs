// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Lays the rows of a strip out under one another.</summary>
internal sealed class StripSheet
{
    private const int HeaderPx = 120;
    private const int FooterPx = 44;
    private const double OverRow = 1e-9;

    private readonly StripPanel _panel;
    private readonly Trace _ecg;
    private readonly Trace _light;
    private readonly StripRow[] _rows;
    private readonly double _mmPerMv;

    internal StripSheet(StripPanel panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        if (!(panel.EndS > 0 && panel.EndS <= StripPanel.LongestS))
        {
            throw new ArgumentException(FormattableString.Invariant(
                $"A strip of {panel.EndS:R} s; it must be longer than 0 s, at most {StripPanel.LongestS:R} s."), nameof(panel));
        }

        for (int i = 1; i < panel.Beats.Length; i++)
        {
            if (!(panel.Beats[i].TimeS >= panel.Beats[i - 1].TimeS))
            {
                throw new ArgumentException(FormattableString.Invariant(
                    $"Beat {i} is at {panel.Beats[i].TimeS:R} s, after one at {panel.Beats[i - 1].TimeS:R} s; beats must ascend."), nameof(panel));
            }
        }

        _panel = panel;
        _ecg = new Trace("ECG", panel.EcgTimesS, panel.EcgMv);
        _light = new Trace(panel.LightTitle, panel.LightTimesS, panel.Light);
        int count = (int)Math.Ceiling((panel.EndS / StripPaper.RowS) - OverRow);
        Span[] heights = new Span[count];
        double largestPulse = 0;
        for (int row = 0; row < count; row++)
        {
            heights[row] = Heights(_ecg, row);
            largestPulse = Math.Max(largestPulse, PulseBox.Size(Heights(_light, row)));
        }

        StripScale scale = new(heights);
        _mmPerMv = scale.MmPerMv;
        _rows = new StripRow[count];
        HeightPx = HeaderPx + FooterPx;
        for (int row = 0; row < count; row++)
        {
            _rows[row] = new StripRow(panel, _ecg, _light, row, scale.Row(heights[row]), scale.SquareMv, largestPulse);
            HeightPx += _rows[row].HeightPx;
        }
    }

    internal int HeightPx { get; }

    internal void Draw(SKCanvas canvas, string title)
    {
        using Pens pens = new();
        float right = Ink.StripLeftPx + (StripPaper.RowMm * StripPaper.MmPx);
        Fit.Text(canvas, pens, title, Ink.StripLeftPx, 42, SKTextAlign.Left, Ink.FigureTitlePx, Ink.Text, right - Ink.StripLeftPx);
        string note = string.Create(
            CultureInfo.InvariantCulture, $"{StripPaper.MmPerS:0.####} mm/s, {_mmPerMv:0.####} mm/mV proportions");
        TitleRow.Draw(canvas, pens, note, Ink.TextPx, Legend(), Ink.StripLeftPx, right, 76);
        string letters = _panel.Beats.Length == 0 ? "none" : BeatLetters.Meaning(_panel.Beats);
        if (letters.Length > 0)
        {
            Fit.Text(canvas, pens, "beats, true: " + letters, Ink.StripLeftPx, 104, SKTextAlign.Left, Ink.TextPx, Ink.Truth, right - Ink.StripLeftPx);
        }

        int top = HeaderPx;
        foreach (StripRow row in _rows)
        {
            row.Draw(canvas, pens, top);
            top += row.HeightPx;
        }

        pens.Text(canvas, "time (s)", Ink.StripLeftPx + (_rows[0].WidthPx / 2f), top + 24, SKTextAlign.Center, Ink.TextPx, Ink.Text);
    }

    private static Span Heights(Trace trace, int row) => trace.Heights(row * StripPaper.RowS, (row + 1) * StripPaper.RowS);

    private List<LegendEntry> Legend()
    {
        List<LegendEntry> legend = [];
        AddIf(_panel.BlockedPTimesS.Length > 0, Symbol.OpenTriangle, "P wave not conducted, true");
        AddIf(_panel.SpikeTimesS.Length > 0, Symbol.ShortTick, "pacing spike, true");
        AddIf(_panel.FootTimesS.Length > 0, Symbol.SmallCircle, "pulse foot (tangents), true");
        AddIf(_panel.NoPulseTimesS.Length > 0, Symbol.Cross, "beat without pulse, true");
        AddIf(_ecg.Gaps.Length + _light.Gaps.Length > 0, Symbol.GreyBox, "no samples");
        return legend;

        void AddIf(bool isNeeded, Symbol symbol, string text)
        {
            if (isNeeded)
            {
                legend.Add(new LegendEntry(symbol, text));
            }
        }
    }
}
