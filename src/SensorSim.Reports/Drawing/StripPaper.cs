// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>The millimetre paper of an ECG strip: its sizes and its lines.</summary>
/// <remarks>
/// Fine squares of 1 mm, bold squares of 5 mm. At 25 mm/s a bold square is 0.2 s; at the standard gain of 10 mm/mV it is 0.5 mV
/// (common practice). Six units of the page make a millimetre, so ten seconds take 1500 of its 1600 and no line falls between pixels.
/// </remarks>
internal static class StripPaper
{
    internal const int MmPx = 6;
    internal const int BoldMm = 5;
    internal const int BoldPx = MmPx * BoldMm;
    internal const int RowMm = 250;
    internal const double RowS = 10;
    internal const double MmPerS = 25;
    internal const double StandardMmPerMv = 10;

    // Lines one pixel wide are sharp when they run through the middle of pixels.
    internal const float Half = 0.5f;

    // A second: less could not carry its own numbers.
    private const int LeastSquares = 5;

    /// <summary>Bold squares that a stretch of time needs, the last one begun counted.</summary>
    internal static int BoldSquares(double seconds) =>
        Math.Clamp((int)Math.Ceiling((seconds * MmPerS / BoldMm) - 1e-6), LeastSquares, RowMm / BoldMm);

    internal static void Draw(SKCanvas canvas, Pens pens, SKRect paper)
    {
        Lines(canvas, pens, paper, MmPx, Ink.StripFine, 1);
        Lines(canvas, pens, paper, BoldPx, Ink.StripBold, 1.4f);
    }

    /// <summary>One path for all lines of a weight: an SVG then stays small.</summary>
    private static void Lines(SKCanvas canvas, Pens pens, SKRect paper, int stepPx, SKColor color, float widthPx)
    {
        using SKPath path = new();
        for (float x = paper.Left; x <= paper.Right; x += stepPx)
        {
            path.MoveTo(x, paper.Top);
            path.LineTo(x, paper.Bottom);
        }

        for (float y = paper.Top; y <= paper.Bottom; y += stepPx)
        {
            path.MoveTo(paper.Left, y);
            path.LineTo(paper.Right, y);
        }

        pens.Path(canvas, path, color, widthPx);
    }
}
