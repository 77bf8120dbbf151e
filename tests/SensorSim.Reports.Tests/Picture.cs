// SPDX-License-Identifier: MIT
using System.Xml.Linq;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Tests;

/// <summary>Reads back what a figure wrote.</summary>
internal static class Picture
{
    internal static byte[] Of(IReadOnlyList<SignalPanel> panels, FigureFormat format = FigureFormat.Png, string title = "Title") =>
        Bytes(stream => SignalFigure.Write(panels, title, stream, format));

    internal static byte[] Of(IReadOnlyList<ErrorPanel> panels, FigureFormat format = FigureFormat.Png) =>
        Bytes(stream => ErrorFigure.Write(panels, "Title", stream, format));

    internal static byte[] Of(IReadOnlyList<TrendPanel> panels, FigureFormat format = FigureFormat.Png) =>
        Bytes(stream => TrendFigure.Write(panels, "Title", stream, format));

    internal static byte[] Of(StripPanel panel, FigureFormat format = FigureFormat.Png) =>
        Bytes(stream => StripFigure.Write(panel, "Title", stream, format));

    internal static SKBitmap Decode(byte[] png) => SKBitmap.Decode(png);

    internal static XDocument Xml(byte[] svg) => XDocument.Parse(System.Text.Encoding.UTF8.GetString(svg));

    internal static string[] Texts(byte[] svg) =>
        [.. Xml(svg).Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value)];

    /// <summary>All pixels of exactly one colour.</summary>
    internal static List<(int X, int Y)> Pixels(SKBitmap bitmap, SKColor color)
    {
        List<(int X, int Y)> found = [];
        for (int y = 0; y < bitmap.Height; y++)
        {
            for (int x = 0; x < bitmap.Width; x++)
            {
                if (bitmap.GetPixel(x, y) == color)
                {
                    found.Add((x, y));
                }
            }
        }

        return found;
    }

    private static byte[] Bytes(Action<Stream> write)
    {
        using MemoryStream stream = new();
        write(stream);
        return stream.ToArray();
    }
}
