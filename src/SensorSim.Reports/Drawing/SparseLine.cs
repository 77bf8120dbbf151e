// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>A line from left to right that leaves out corners too flat to be seen.</summary>
/// <remarks>
/// From the last corner kept, the slopes that pass every later point within the tolerance form a wedge; a point outside of the wedge
/// makes the point before it a corner.
/// </remarks>
internal sealed class SparseLine
{
    // A fifth of a pixel: 3 uV at the standard gain.
    private const float TolerancePx = 0.2f;

    private readonly SKPath _path;
    private SKPoint _corner;
    private SKPoint _last;
    private float _lowSlope = float.NegativeInfinity;
    private float _highSlope = float.PositiveInfinity;

    internal SparseLine(SKPath path, float x, float y)
    {
        _path = path;
        _corner = new SKPoint(x, y);
        _last = _corner;
        path.MoveTo(_corner);
    }

    internal void To(float x, float y)
    {
        float slope = (y - _corner.Y) / (x - _corner.X);
        if (!(slope >= _lowSlope && slope <= _highSlope))
        {
            // Also where two points share a place: their slope is no number.
            Keep();
        }

        float width = x - _corner.X;
        _lowSlope = Math.Max(_lowSlope, (y - TolerancePx - _corner.Y) / width);
        _highSlope = Math.Min(_highSlope, (y + TolerancePx - _corner.Y) / width);
        _last = new SKPoint(x, y);
    }

    internal void Finish() => Keep();

    private void Keep()
    {
        if (_last != _corner)
        {
            _path.LineTo(_last);
        }

        _corner = _last;
        _lowSlope = float.NegativeInfinity;
        _highSlope = float.PositiveInfinity;
    }
}
