// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>The low row with the light of the pulse, turned over: up is less light, a fuller vessel.</summary>
internal static class PulseBox
{
    internal const int HeightPx = 92;

    /// <summary>Height of the lane for beats without a pulse, inside the box at its lower edge.</summary>
    internal const int LanePx = 20;
    private const int FreePx = 9;

    // A row is drawn no larger than four times the scale of the largest pulse: where the pulse fails the line looks flat, as it is.
    private const double MostEnlarged = 4;

    // Pulses below this share of the light are hard to measure; without the floor a stretch of noise alone would fill the row.
    private const double SmallestShare = 0.0005;

    /// <summary>What a row must show at least [unit of the light]: its range, or a two-thousandth of the light.</summary>
    internal static double Size(Span heights) => heights.IsEmpty
        ? 0
        : Math.Max(heights.High - heights.Low, Math.Max(Math.Abs(heights.High), Math.Abs(heights.Low)) * SmallestShare);

    /// <summary>Scale of one row.</summary>
    /// <param name="box">The box.</param>
    /// <param name="fromS">Time at its left edge [s].</param>
    /// <param name="heights">Light in the row.</param>
    /// <param name="largest">The largest <see cref="Size"/> of all rows.</param>
    /// <param name="hasLane">Whether the lane is kept free.</param>
    internal static TimeAndHeight Scale(SKRect box, double fromS, Span heights, double largest, bool hasLane)
    {
        float top = box.Top + FreePx;
        float bottom = box.Bottom - (hasLane ? LanePx : FreePx);
        double size = Math.Max(Size(heights), largest / MostEnlarged);
        double middle = heights.IsEmpty ? 0 : (heights.Low / 2) + (heights.High / 2);
        return new TimeAndHeight(
            fromS, box.Left, StripPaper.MmPerS * StripPaper.MmPx, middle, (top + bottom) / 2, size > 0 ? (bottom - top) / size : 0);
    }

    internal static float LaneY(SKRect box) => box.Bottom - (LanePx / 2);
}
