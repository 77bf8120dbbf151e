// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Drawing;

/// <summary>The range of an axis, grown from what must be visible.</summary>
internal struct Span
{
    private double _low = double.PositiveInfinity;
    private double _high = double.NegativeInfinity;

    public Span()
    {
    }

    internal readonly bool IsEmpty => _low > _high;

    internal readonly double Low => _low;

    internal readonly double High => _high;

    internal void Include(double value)
    {
        if (double.IsFinite(value))
        {
            _low = Math.Min(_low, value);
            _high = Math.Max(_high, value);
        }
    }

    internal void Include(double[] values)
    {
        foreach (double value in values)
        {
            Include(value);
        }
    }

    /// <summary>A range that can be drawn: never empty, never of no height, with the given share left free at both ends.</summary>
    internal readonly (double Low, double High) Padded(double share)
    {
        if (IsEmpty)
        {
            return (0, 1);
        }

        double size = Math.Max(Math.Abs(_low), Math.Abs(_high));
        if (_high - _low <= size * 1e-9)
        {
            double half = size == 0 ? 1 : size * 0.05;
            return (_low - half, _high + half);
        }

        double free = (_high - _low) * share;
        return (_low - free, _high + free);
    }
}
