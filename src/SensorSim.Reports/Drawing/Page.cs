// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Turns drawing calls into the bytes of a file.</summary>
internal static class Page
{
    // Level 2 costs a third of the time of the default 6 and makes files a fifth larger. Filters do not pay for thin lines on white.
    private static readonly SKPngEncoderOptions PngOptions = new(SKPngEncoderFilterFlags.None, 2);

    /// <summary>Draws to the file; the ending of its name gives the format. An existing file is replaced.</summary>
    internal static void Write(string path, string title, int heightPx, Action<SKCanvas> draw)
    {
        FigureFormat format = FigureFormats.FromPath(path);
        byte[] bytes = Bytes(format, title, heightPx, draw);
        File.WriteAllBytes(path, bytes);
    }

    /// <summary>Draws to the stream, which stays open.</summary>
    internal static void Write(Stream stream, FigureFormat format, string title, int heightPx, Action<SKCanvas> draw)
    {
        ArgumentNullException.ThrowIfNull(stream);
        stream.Write(Bytes(format, title, heightPx, draw));
    }

    /// <summary>The bytes of a file.</summary>
    internal static byte[] Bytes(FigureFormat format, string title, int heightPx, Action<SKCanvas> draw)
    {
        PlotFont.Register();
        return format == FigureFormat.Svg ? Svg(title, heightPx, draw) : Png(heightPx, draw);
    }

    private static byte[] Png(int heightPx, Action<SKCanvas> draw)
    {
        // Opaque: the encoder then leaves out the alpha channel, a quarter of the bytes to compress.
        using SKBitmap bitmap = new(new SKImageInfo(Ink.WidthPx, heightPx, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (SKCanvas canvas = new(bitmap))
        {
            canvas.Clear(Ink.Paper);
            draw(canvas);
        }

        using SKPixmap pixels = bitmap.PeekPixels();
        using SKData data = pixels.Encode(PngOptions) ?? throw new InvalidOperationException("The PNG encoder gave nothing.");
        return data.ToArray();
    }

    private static byte[] Svg(string title, int heightPx, Action<SKCanvas> draw)
    {
        using MemoryStream raw = new();
        SKRect page = new(0, 0, Ink.WidthPx, heightPx);
        using (SKCanvas canvas = SKSvgCanvas.Create(page, raw))
        {
            using SKPaint paper = new() { Color = Ink.Paper };
            canvas.DrawRect(page, paper);
            draw(canvas);
        }

        string text = Encoding.UTF8.GetString(raw.GetBuffer(), 0, (int)raw.Length);
        return Encoding.UTF8.GetBytes(SvgText.Finish(text, title, heightPx));
    }
}
