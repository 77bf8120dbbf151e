// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The crossing of a smooth curve through the figures after they were made to fall steadily; shares on the logit scale.</summary>
/// <remarks>It believes in no shape, only that things get worse along the axis.</remarks>
internal sealed class InterpolatedCrossing : ICrossingFinder
{
    private readonly double[] _places;
    private readonly FigureColumns _columns;
    private readonly bool _isLogit;
    private readonly double _target;
    private readonly double[] _usedPlaces;
    private readonly double[] _values;
    private readonly double[] _weights;
    private int _used;

    /// <summary>Creates a finder.</summary>
    /// <param name="places">Places of the levels, ascending, worse and worse.</param>
    /// <param name="columns">What the sums mean.</param>
    public InterpolatedCrossing(double[] places, FigureColumns columns)
    {
        _places = places;
        _columns = columns;
        _isLogit = columns.IsShare && columns.Target is > 0 and < 1;
        _target = _isLogit ? CurveLink.Logit.Line(columns.Target) : columns.Target;
        _usedPlaces = new double[places.Length];
        _values = new double[places.Length];
        _weights = new double[places.Length];
    }

    /// <inheritdoc/>
    public Crossing Find(ReadOnlySpan<double> sums)
    {
        _used = 0;
        int end = -1;
        for (int i = 0; i < _places.Length; i++)
        {
            ReadOnlySpan<double> own = sums.Slice(i * FigureColumns.Count, FigureColumns.Count);
            double quality = _columns.Quality(_columns.Figure(own));
            if (double.IsNegativeInfinity(quality))
            {
                // Worse than any number: what is beyond is no better, and no smooth curve leads there.
                end = i;
                break;
            }

            if (!double.IsNaN(quality))
            {
                _usedPlaces[_used] = _places[i];
                _values[_used] = quality;
                _weights[_used++] = own[1];
            }
        }

        if (_used + (end < 0 ? 0 : 1) < 2)
        {
            return end == 0 ? new Crossing(double.NegativeInfinity, double.NegativeInfinity) : Crossing.Unknown;
        }

        Span<double> values = _values.AsSpan(0, _used);
        IsotonicFit.Falling(values, _weights.AsSpan(0, _used));
        if (_isLogit)
        {
            for (int i = 0; i < _used; i++)
            {
                // All or none of n says no more than half an event of n, but on which side of the requirement it lies, however few there are.
                double half = 0.5 / Math.Max(1, _weights[i]);
                double least = Math.Min(Math.Min(half, 0.5), _columns.Target / 2);
                double most = Math.Max(Math.Max(1 - half, 0.5), (1 + _columns.Target) / 2);
                values[i] = CurveLink.Logit.Line(Math.Clamp(values[i], least, most));
            }

            // Different half events may rise again.
            IsotonicFit.Falling(values, _weights.AsSpan(0, _used));
        }

        if (end > 0 && values[^1] >= _target)
        {
            return new Crossing(_usedPlaces[_used - 1], _places[end]);
        }

        double place = _used == 1 ? double.NegativeInfinity : MonotoneCubic.Crossing(_usedPlaces.AsSpan(0, _used), values, _target);
        return new Crossing(place, place);
    }

    /// <inheritdoc/>
    public double FigureAt(double place)
    {
        double value = _used < 2 ? double.NaN : MonotoneCubic.At(_usedPlaces.AsSpan(0, _used), _values.AsSpan(0, _used), place);
        return _isLogit ? CurveLink.Logit.Share(value) : Math.Abs(value);
    }
}
