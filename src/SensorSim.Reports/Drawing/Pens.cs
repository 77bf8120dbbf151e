// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Draws the signs; the same code serves plots and legends, so that they look the same.</summary>
internal sealed class Pens : IDisposable
{
    internal const float CircleRadiusPx = 9;
    internal const float DiamondRadiusPx = 6.5f;
    internal const float DotRadiusPx = 4.5f;
    internal const float TrianglePx = 8;

    private const float SmallScale = 0.5f;
    private const float SmallSignPx = 5;
    private const float SmallLinePx = 2;

    private readonly SKPaint _line = new() { IsAntialias = true, Style = SKPaintStyle.Stroke };
    private readonly SKPaint _fill = new() { IsAntialias = true, Style = SKPaintStyle.Fill };
    private readonly SKPathEffect _dashes = SKPathEffect.CreateDash([9, 6], 0);

    internal void Circle(SKCanvas canvas, float x, float y, float scale = 1) =>
        canvas.DrawCircle(x, y, CircleRadiusPx * scale, Stroke(Ink.Truth, Ink.MarkWidthPx));

    internal void Diamond(SKCanvas canvas, float x, float y, float scale = 1)
    {
        float r = DiamondRadiusPx * scale;
        Polygon(canvas, Ink.Detected, (x, y - r), (x + r, y), (x, y + r), (x - r, y));
    }

    internal void Dot(SKCanvas canvas, float x, float y, float scale = 1) =>
        canvas.DrawCircle(x, y, DotRadiusPx * scale, Fill(Ink.Detected));

    /// <summary>A triangle that stands on <paramref name="y"/> and points up.</summary>
    internal void Triangle(SKCanvas canvas, float x, float y) => Polygon(
        canvas, Ink.Detected, (x - TrianglePx, y), (x + TrianglePx, y), (x, y - (1.7f * TrianglePx)));

    /// <summary>One of the small open signs, around a point.</summary>
    internal void Small(SKCanvas canvas, Symbol sign, float x, float y)
    {
        const float R = SmallSignPx;
        switch (sign)
        {
            case Symbol.SmallCircle:
                Circle(canvas, x, y, SmallScale);
                break;
            case Symbol.Cross:
                Line(canvas, Ink.Truth, SmallLinePx, x - R, y - R, x + R, y + R);
                Line(canvas, Ink.Truth, SmallLinePx, x - R, y + R, x + R, y - R);
                break;
            case Symbol.OpenTriangle:
                Line(canvas, Ink.Truth, SmallLinePx, x - R, y - R, x + R, y - R);
                Line(canvas, Ink.Truth, SmallLinePx, x + R, y - R, x, y + R);
                Line(canvas, Ink.Truth, SmallLinePx, x, y + R, x - R, y - R);
                break;
            default:
                Line(canvas, Ink.Truth, SmallLinePx, x, y - R, x, y + R);
                break;
        }
    }

    internal void Spot(SKCanvas canvas, SKColor color, float x, float y, float radiusPx) => canvas.DrawCircle(x, y, radiusPx, Fill(color));

    /// <summary>Upright and level lines that run through the middle of pixels: nothing to smooth, so that it is left out and saves its time.</summary>
    internal void Rules(SKCanvas canvas, SKPath path, SKColor color, float widthPx)
    {
        SKPaint paint = Stroke(color, widthPx);
        paint.IsAntialias = false;
        canvas.DrawPath(path, paint);
        paint.IsAntialias = true;
    }

    /// <summary>The outline of a path, with blunt corners: a pointed one would overshoot the peak of a narrow spike.</summary>
    internal void Path(SKCanvas canvas, SKPath path, SKColor color, float widthPx)
    {
        SKPaint paint = Stroke(color, widthPx);
        paint.StrokeJoin = SKStrokeJoin.Bevel;
        canvas.DrawPath(path, paint);
        paint.StrokeJoin = SKStrokeJoin.Miter;
    }

    internal void Line(SKCanvas canvas, SKColor color, float widthPx, float x1, float y1, float x2, float y2, bool dashed = false)
    {
        SKPaint paint = Stroke(color, widthPx);
        paint.PathEffect = dashed ? _dashes : null;
        canvas.DrawLine(x1, y1, x2, y2, paint);
        paint.PathEffect = null;
    }

    internal void Box(SKCanvas canvas, SKColor color, SKRect box) => canvas.DrawRect(box, Fill(color));

    internal void Frame(SKCanvas canvas, SKColor color, SKRect box) => canvas.DrawRect(box, Stroke(color, 1.2f));

    internal void Text(SKCanvas canvas, string text, float x, float y, SKTextAlign align, float sizePx, SKColor color)
    {
        using SKFont font = PlotFont.Sized(sizePx);
        canvas.DrawText(text, x, y, align, font, Fill(color));
    }

    public void Dispose()
    {
        _line.Dispose();
        _fill.Dispose();
        _dashes.Dispose();
    }

    internal void Polygon(SKCanvas canvas, SKColor color, params ReadOnlySpan<(float X, float Y)> corners)
    {
        using SKPath path = new();
        path.MoveTo(corners[0].X, corners[0].Y);
        foreach ((float x, float y) in corners[1..])
        {
            path.LineTo(x, y);
        }

        path.Close();
        canvas.DrawPath(path, Fill(color));
    }

    private SKPaint Stroke(SKColor color, float widthPx)
    {
        _line.Color = color;
        _line.StrokeWidth = widthPx;
        return _line;
    }

    private SKPaint Fill(SKColor color)
    {
        _fill.Color = color;
        return _fill;
    }
}
