// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Texts of any length in a given room: smaller first, cut off at last.</summary>
internal static class Fit
{
    internal const float SmallestPx = 13;

    /// <summary>Draws a text so that it is at most so wide.</summary>
    internal static void Text(
        SKCanvas canvas, Pens pens, string text, float x, float y, SKTextAlign align, float sizePx, SKColor color, float roomPx)
    {
        float size = Size([text], sizePx, roomPx);
        pens.Text(canvas, Cut(text, size, roomPx), x, y, align, size, color);
    }

    /// <summary>The size at which each of some texts is at most so wide; the smallest at last, at which they may have to be cut.</summary>
    internal static float Size(IEnumerable<string> texts, float sizePx, float roomPx)
    {
        float size = sizePx;
        foreach (string text in texts)
        {
            while (size > SmallestPx && TitleRow.Width(text, size) > roomPx)
            {
                size -= 1;
            }
        }

        return size;
    }

    /// <summary>As much of a text as fits; three dots say that something is missing.</summary>
    internal static string Cut(string text, float sizePx, float roomPx)
    {
        if (TitleRow.Width(text, sizePx) <= roomPx)
        {
            return text;
        }

        int length = text.Length;
        while (length > 1 && TitleRow.Width(text[..length] + "…", sizePx) > roomPx)
        {
            length--;
        }

        return text[..length] + "…";
    }
}
