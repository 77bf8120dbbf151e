// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>How the detectors of a study are told apart: each has a hue, a dash and a sign of its own.</summary>
/// <remarks>
/// Hues of Okabe and Ito, Color Universal Design, 2008, which stay apart for the common kinds of colour blindness; dash and sign do the same
/// in grey. After seven detectors they begin anew.
/// </remarks>
internal sealed class SeriesStyle : IDisposable
{
    private static readonly (SKColor Color, float[] Dash)[] s_styles =
    [
        (new SKColor(0x00, 0x72, 0xB2), []),
        (new SKColor(0xD5, 0x5E, 0x00), [12, 7]),
        (new SKColor(0x00, 0x9E, 0x73), [3, 6]),
        (new SKColor(0x20, 0x20, 0x20), [16, 6, 3, 6]),
        (new SKColor(0xCC, 0x79, 0xA7), [24, 8]),
        (new SKColor(0xE6, 0x9F, 0x00), [6, 6]),
        (new SKColor(0x56, 0xB4, 0xE9), [16, 5, 3, 5, 3, 5]),
    ];

    private readonly int _sign;
    private readonly SKPathEffect? _dash;
    private readonly SKPaint _stroke = new() { IsAntialias = true, Style = SKPaintStyle.Stroke };
    private readonly SKPaint _fill = new() { IsAntialias = true, Style = SKPaintStyle.Fill };

    internal SeriesStyle(int index)
    {
        _sign = index % s_styles.Length;
        Color = s_styles[_sign].Color;
        _dash = s_styles[_sign].Dash.Length == 0 ? null : SKPathEffect.CreateDash(s_styles[_sign].Dash, 0);
    }

    internal SKColor Color { get; }

    /// <summary>A line through points, in the series' dash.</summary>
    internal void Line(SKCanvas canvas, IReadOnlyList<SKPoint> points, float widthPx = 2.4f)
    {
        if (points.Count < 2)
        {
            return;
        }

        using SKPath path = new();
        path.MoveTo(points[0]);
        for (int i = 1; i < points.Count; i++)
        {
            path.LineTo(points[i]);
        }

        SKPaint paint = Stroke(widthPx);
        paint.PathEffect = _dash;
        canvas.DrawPath(path, paint);
        paint.PathEffect = null;
    }

    /// <summary>A vertical bar with ticks at its ends; an end that lies beyond the room has none.</summary>
    internal void UprightBar(SKCanvas canvas, float x, float top, float bottom, bool hasTop, bool hasBottom)
    {
        const float Half = 5;
        canvas.DrawLine(x, top, x, bottom, Stroke(1.6f));
        if (hasTop)
        {
            canvas.DrawLine(x - Half, top, x + Half, top, Stroke(1.6f));
        }

        if (hasBottom)
        {
            canvas.DrawLine(x - Half, bottom, x + Half, bottom, Stroke(1.6f));
        }
    }

    /// <summary>A level bar; an end that is open runs out in an arrow.</summary>
    internal void LevelBar(SKCanvas canvas, float left, float right, float y, bool isOpenLeft, bool isOpenRight)
    {
        const float Half = 5;
        canvas.DrawLine(left, y, right, y, Stroke(2.2f));
        End(canvas, left, y, isOpenLeft, Half);
        End(canvas, right, y, isOpenRight, -Half);
    }

    /// <summary>The sign of the series, around a point.</summary>
    internal void Sign(SKCanvas canvas, float x, float y, float radiusPx = 5.5f)
    {
        float r = radiusPx;
        switch (_sign)
        {
            case 0:
                canvas.DrawCircle(x, y, r, Fill());
                break;
            case 1:
                Shape(canvas, Fill(), (x, y - (1.25f * r)), (x + (1.25f * r), y), (x, y + (1.25f * r)), (x - (1.25f * r), y));
                break;
            case 2:
                Shape(canvas, Fill(), (x, y - (1.2f * r)), (x + (1.15f * r), y + (0.9f * r)), (x - (1.15f * r), y + (0.9f * r)));
                break;
            case 3:
                canvas.DrawLine(x - r, y - r, x + r, y + r, Stroke(2.4f));
                canvas.DrawLine(x - r, y + r, x + r, y - r, Stroke(2.4f));
                break;
            case 4:
                Shape(canvas, Stroke(2.2f), (x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r));
                break;
            case 5:
                canvas.DrawCircle(x, y, r, Stroke(2.4f));
                break;
            default:
                Shape(canvas, Stroke(2.2f), (x, y + (1.2f * r)), (x + (1.15f * r), y - (0.9f * r)), (x - (1.15f * r), y - (0.9f * r)));
                break;
        }
    }

    public void Dispose()
    {
        _dash?.Dispose();
        _stroke.Dispose();
        _fill.Dispose();
    }

    private void End(SKCanvas canvas, float x, float y, bool isOpen, float inward)
    {
        if (isOpen)
        {
            canvas.DrawLine(x, y, x + inward, y - 5, Stroke(2.2f));
            canvas.DrawLine(x, y, x + inward, y + 5, Stroke(2.2f));
        }
        else
        {
            canvas.DrawLine(x, y - 5, x, y + 5, Stroke(2.2f));
        }
    }

    private static void Shape(SKCanvas canvas, SKPaint paint, params ReadOnlySpan<(float X, float Y)> corners)
    {
        using SKPath path = new();
        path.MoveTo(corners[0].X, corners[0].Y);
        foreach ((float x, float y) in corners[1..])
        {
            path.LineTo(x, y);
        }

        path.Close();
        canvas.DrawPath(path, paint);
    }

    private SKPaint Stroke(float widthPx)
    {
        _stroke.Color = Color;
        _stroke.StrokeWidth = widthPx;
        return _stroke;
    }

    private SKPaint Fill()
    {
        _fill.Color = Color;
        return _fill;
    }
}
