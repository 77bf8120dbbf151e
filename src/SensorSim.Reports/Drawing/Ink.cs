// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Colours, widths and sizes of every figure, in units of a 1600 wide page.</summary>
/// <remarks>
/// Truth is blue and hollow, detections are vermilion and filled: two hues that stay apart for the common kinds of colour
/// blindness (Okabe and Ito, Color Universal Design, 2008) and two shapes for everybody else, grey printers included.
/// </remarks>
internal static class Ink
{
    internal const int WidthPx = 1600;
    internal const int LeftPx = 130;
    internal const int RightPx = 36;

    /// <summary>Left edge of a strip: its ten seconds need more of the width than other figures leave.</summary>
    internal const int StripLeftPx = 84;

    internal const float FigureTitlePx = 28;
    internal const float PanelTitlePx = 23;
    internal const float TextPx = 20;
    internal const float MarkLabelPx = 18;
    internal const float SignalWidthPx = 1.8f;
    internal const float MarkWidthPx = 2.6f;

    internal static readonly SKColor Paper = new(0xFF, 0xFF, 0xFF);
    internal static readonly SKColor Text = new(0x20, 0x20, 0x20);
    internal static readonly SKColor Signal = new(0x4A, 0x4A, 0x4A);
    internal static readonly SKColor Frame = new(0x9A, 0x9A, 0x9A);
    internal static readonly SKColor Grid = new(0xE6, 0xE6, 0xE6);
    internal static readonly SKColor StripFine = new(0xEE, 0xF1, 0xF3);
    internal static readonly SKColor StripBold = new(0xC2, 0xCC, 0xD2);
    internal static readonly SKColor Gap = new(0xEC, 0xEC, 0xEC);
    internal static readonly SKColor Bar = new(0xA9, 0xB4, 0xBE);
    internal static readonly SKColor Truth = new(0x00, 0x72, 0xB2);

    /// <summary>Truth as a ground: pale enough for signs on top.</summary>
    internal static readonly SKColor TruthPale = new(0xCC, 0xE3, 0xF0);

    internal static readonly SKColor Detected = new(0xD5, 0x5E, 0x00);

    internal static ScottPlot.Color Plot(SKColor color) => new(color.Red, color.Green, color.Blue, color.Alpha);
}
