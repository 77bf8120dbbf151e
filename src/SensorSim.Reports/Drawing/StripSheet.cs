// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Lays the rows of a strip out under one another.</summary>
internal sealed class StripSheet
{
    internal const int LeftPx = 84;
    internal const int HeaderPx = 120;
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

        _panel = panel;
        _ecg = new Trace("ECG", panel.EcgTimesS, panel.EcgMv);
        _light = new Trace(panel.LightTitle, panel.LightTimesS, panel.Light);
        int count = (int)Math.Ceiling((panel.EndS / StripPaper.RowS) - OverRow);
        StripScale scale = new([.. Enumerable.Range(0, count).Select(row => Heights(_ecg, row))]);
        double largest = Enumerable.Range(0, count).Select(row => PulseBox.Size(Heights(_light, row))).Max();
        _mmPerMv = scale.MmPerMv;
        _rows = [.. Enumerable.Range(0, count).Select(row => new StripRow(panel, _ecg, _light, scale, row, largest))];
    }

    internal int HeightPx => HeaderPx + _rows.Sum(row => row.HeightPx) + FooterPx;

    internal void Draw(SKCanvas canvas, string title)
    {
        using Pens pens = new();
        float right = LeftPx + (StripPaper.RowMm * StripPaper.MmPx);
        pens.Text(canvas, title, LeftPx, 42, SKTextAlign.Left, Ink.FigureTitlePx, Ink.Text);
        string note = string.Create(
            CultureInfo.InvariantCulture, $"{StripPaper.MmPerS:0.####} mm/s, {_mmPerMv:0.####} mm/mV proportions");
        TitleRow.Draw(canvas, pens, note, Ink.TextPx, Legend(), LeftPx, right, 76);
        StripBeat[] beats = [.. _panel.Beats.Where(beat => IsShown(beat.TimeS))];
        string letters = beats.Length == 0 ? "none" : BeatLetters.Meaning(beats);
        if (letters.Length > 0)
        {
            pens.Text(canvas, "beats, true: " + letters, LeftPx, 104, SKTextAlign.Left, Ink.TextPx, Ink.Truth);
        }

        int top = HeaderPx;
        foreach (StripRow row in _rows)
        {
            row.Draw(canvas, pens, top);
            top += row.HeightPx;
        }

        pens.Text(canvas, "time (s)", LeftPx + (_rows[0].WidthPx / 2f), top + 24, SKTextAlign.Center, Ink.TextPx, Ink.Text);
    }

    private static Span Heights(Trace trace, int row) => trace.Heights(row * StripPaper.RowS, (row + 1) * StripPaper.RowS);

    private List<LegendEntry> Legend()
    {
        List<LegendEntry> legend = [];
        AddIf(_panel.BlockedPTimesS.Any(IsShown), Symbol.OpenTriangle, "P wave not conducted, true");
        AddIf(_panel.SpikeTimesS.Any(IsShown), Symbol.ShortTick, "pacing spike, true");
        AddIf(_panel.FootTimesS.Any(IsShown), Symbol.SmallCircle, "pulse foot (tangents), true");
        AddIf(_panel.NoPulseTimesS.Any(IsShown), Symbol.Cross, "beat without pulse, true");
        AddIf(_ecg.Gaps.Count + _light.Gaps.Count > 0, Symbol.GreyBox, "no samples");
        return legend;

        void AddIf(bool isNeeded, Symbol symbol, string text)
        {
            if (isNeeded)
            {
                legend.Add(new LegendEntry(symbol, text));
            }
        }
    }

    private bool IsShown(double timeS) => timeS >= 0 && timeS < _panel.EndS;
}
