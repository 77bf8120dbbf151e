// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Ten seconds of a strip: letters, ECG on its paper, pulse, seconds.</summary>
internal sealed class StripRow
{
    private const int LettersPx = 28;
    private const int SignLanePx = 18;
    private const int BetweenPx = 8;
    private const int SecondsPx = 44;
    private const float SmallTextPx = 16;
    private const float FreePx = 4;

    private readonly StripPanel _panel;
    private readonly Trace _ecg;
    private readonly Trace _light;
    private readonly double _fromS;
    private readonly double _toS;
    private readonly double _largestPulse;
    private readonly (int Low, int High) _squares;
    private readonly double _squareMv;

    internal StripRow(StripPanel panel, Trace ecg, Trace light, StripScale scale, int row, double largestPulse)
    {
        _panel = panel;
        _ecg = ecg;
        _light = light;
        _fromS = row * StripPaper.RowS;
        _toS = Math.Min(panel.EndS, (row + 1) * StripPaper.RowS);
        _largestPulse = largestPulse;
        _squares = scale.Row(row);
        _squareMv = scale.SquareMv;
        WidthPx = StripPaper.BoldSquares(_toS - _fromS) * StripPaper.BoldPx;
    }

    internal int WidthPx { get; }

    internal int HeightPx => PulseTopPx + (HasPulse ? PulseBox.HeightPx : 0) + SecondsPx;

    // Lanes that no row of the figure needs take no room; all rows are built alike.
    private int PaperTopPx => LettersPx + (_panel.BlockedPTimesS.Count > 0 ? SignLanePx : 0);

    private int PaperHeightPx => (_squares.High - _squares.Low) * StripPaper.BoldPx;

    private int PulseTopPx => PaperTopPx + PaperHeightPx + (_panel.SpikeTimesS.Count > 0 ? SignLanePx : HasPulse ? BetweenPx : 0);

    private bool HasPulse => _panel.LightTimesS.Length > 0;

    private bool HasLane => _panel.NoPulseTimesS.Count > 0;

    internal void Draw(SKCanvas canvas, Pens pens, int topPx)
    {
        float left = StripSheet.LeftPx + StripPaper.Half;
        float top = topPx + PaperTopPx + StripPaper.Half;
        SKRect paper = SKRect.Create(left, top, WidthPx, PaperHeightPx);
        double pxPerMv = StripPaper.BoldPx / _squareMv;
        TimeAndHeight scale = new(
            _fromS, left, StripPaper.MmPerS * StripPaper.MmPx, 0, top + (_squares.High * StripPaper.BoldPx), -pxPerMv);
        Shade(canvas, pens, _ecg, scale, paper);
        StripPaper.Draw(canvas, pens, paper);
        Curve(canvas, pens, _ecg, scale, paper);
        Millivolts(canvas, pens, paper);
        Letters(canvas, pens, scale, paper, topPx + LettersPx - 6);
        foreach (double time in Inside(_panel.BlockedPTimesS))
        {
            pens.OpenTriangle(canvas, scale.X(time), paper.Top - (SignLanePx / 2));
        }

        foreach (double time in Inside(_panel.SpikeTimesS))
        {
            pens.ShortTick(canvas, scale.X(time), paper.Bottom + (SignLanePx / 2));
        }

        SKRect lowest = paper;
        if (HasPulse)
        {
            lowest = SKRect.Create(left, topPx + PulseTopPx + StripPaper.Half, WidthPx, PulseBox.HeightPx);
            Pulse(canvas, pens, lowest);
        }

        Seconds(canvas, pens, scale, lowest);
    }

    private static void Shade(SKCanvas canvas, Pens pens, Trace trace, TimeAndHeight scale, SKRect box)
    {
        foreach ((double from, double to) in trace.Gaps)
        {
            float left = Math.Max(box.Left, scale.X(from));
            float right = Math.Min(box.Right, scale.X(to));
            if (left < right)
            {
                pens.Box(canvas, Ink.Gap, new SKRect(left, box.Top, right, box.Bottom));
            }
        }
    }

    private void Curve(SKCanvas canvas, Pens pens, Trace trace, TimeAndHeight scale, SKRect box)
    {
        pens.Frame(canvas, Ink.Frame, box);
        if (trace.IsEmpty)
        {
            pens.Text(canvas, "no data", box.MidX, box.MidY + 8, SKTextAlign.Center, Ink.PanelTitlePx, Ink.Frame);
            return;
        }

        canvas.Save();
        canvas.ClipRect(box);
        trace.Draw(canvas, pens, scale, _fromS, _fromS + StripPaper.RowS);
        canvas.Restore();
    }

    private void Millivolts(SKCanvas canvas, Pens pens, SKRect paper)
    {
        for (int square = _squares.Low; square <= _squares.High; square++)
        {
            // Every second bold line: whole millivolts at the standard gain.
            if (square % 2 == 0)
            {
                string text = (square * _squareMv).ToString("0.####", CultureInfo.InvariantCulture);
                float y = paper.Bottom - ((square - _squares.Low) * StripPaper.BoldPx);
                pens.Text(canvas, text, paper.Left - 8, y + 6, SKTextAlign.Right, SmallTextPx, Ink.Text);
            }
        }

        pens.Text(canvas, "ECG, mV", paper.Left - 8, paper.Top - 12, SKTextAlign.Right, SmallTextPx, Ink.Text);
    }

    private void Letters(SKCanvas canvas, Pens pens, TimeAndHeight scale, SKRect paper, float baseline)
    {
        float free = float.NegativeInfinity;
        foreach (StripBeat beat in _panel.Beats.Where(beat => IsInside(beat.TimeS)).OrderBy(beat => beat.TimeS))
        {
            string letter = BeatLetters.Letter(beat.Class);
            float width = TitleRow.Width(letter, Ink.TextPx);
            float left = Math.Max(scale.X(beat.TimeS) - (width / 2), paper.Left);
            if (letter.Length > 0 && left >= free)
            {
                pens.Text(canvas, letter, left, baseline, SKTextAlign.Left, Ink.TextPx, Ink.Truth);
                free = left + width + FreePx;
            }
        }
    }

    private void Pulse(SKCanvas canvas, Pens pens, SKRect box)
    {
        TimeAndHeight scale = PulseBox.Scale(
            box, _fromS, _light.Heights(_fromS, _fromS + StripPaper.RowS), _largestPulse, HasLane);
        Shade(canvas, pens, _light, scale, box);
        for (float x = box.Left; x <= box.Right; x += (float)scale.PxPerS)
        {
            pens.Line(canvas, Ink.StripBold, 1, x, box.Top, x, box.Bottom);
        }

        Curve(canvas, pens, _light, scale, box);
        foreach (double time in Inside(_panel.FootTimesS))
        {
            double value = _light.ValueAt(time);
            if (double.IsFinite(value))
            {
                pens.Circle(canvas, scale.X(time), scale.Y(value), Pens.SmallScale);
            }
        }

        foreach (double time in Inside(_panel.NoPulseTimesS))
        {
            pens.Cross(canvas, scale.X(time), PulseBox.LaneY(box));
        }

        pens.Text(canvas, _panel.LightTitle + ",", box.Left - 8, box.MidY - 4, SKTextAlign.Right, SmallTextPx, Ink.Text);
        pens.Text(canvas, "inverted", box.Left - 8, box.MidY + 16, SKTextAlign.Right, SmallTextPx, Ink.Text);
    }

    private void Seconds(SKCanvas canvas, Pens pens, TimeAndHeight scale, SKRect lowest)
    {
        for (int second = (int)_fromS; scale.X(second) <= lowest.Right + 1; second++)
        {
            float x = scale.X(second);
            pens.Line(canvas, Ink.Frame, 1.2f, x, lowest.Bottom, x, lowest.Bottom + 5);
            string text = second.ToString(CultureInfo.InvariantCulture);
            pens.Text(canvas, text, x, lowest.Bottom + 24, SKTextAlign.Center, Ink.TextPx, Ink.Text);
        }
    }

    private IEnumerable<double> Inside(IReadOnlyList<double> times) => times.Where(IsInside);

    private bool IsInside(double timeS) => timeS >= _fromS && timeS < _toS;
}
