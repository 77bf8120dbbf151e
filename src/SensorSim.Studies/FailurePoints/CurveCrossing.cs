// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The crossing of a binomial curve through the levels about it: a line that may bend, and a lapse.</summary>
/// <remarks>
/// What is missed at any level is the lapse, so a requirement near 1 is not judged by the middle of the curve. The line may bend and levels far
/// below the requirement are left out, because the curve that is pooled over unlike seeds has tails that no straight line has, and
/// what is found by chance in pure noise is nothing to a requirement far above it.
/// </remarks>
internal sealed class CurveCrossing : ICrossingFinder
{
    private const double LargestLapse = 0.06;

    // On the logit scale. Of 0.99, levels down to 0.75 count.
    private const double FarBelow = 3.5;
    private const int LeastWorse = 1;

    // Three levels or more in the lowest quarter between the worst share and the requirement lie on the floor of chance; fewer may be a steep slope.
    private const double NearFloor = 0.25;
    private const int LeastOnFloor = 3;

    // While the straight line moves by 5, about from 0.5 to 0.993, the bent one may leave it by 6 (standard deviation).
    private const double BendOfSlope = 6 / (5.0 * 5);

    private readonly double[] _places;
    private readonly double _target;
    private readonly CurveLink _link;
    private readonly int _used;
    private readonly BinomialLevel[] _levels;
    private BinomialCurveFitter _fitter;
    private BinomialCurve? _first;

    /// <summary>Creates a finder and finds the crossing of the study.</summary>
    /// <param name="places">Places of the levels, ascending, worse and worse.</param>
    /// <param name="target">The share.</param>
    /// <param name="link">Shape of the curve.</param>
    /// <param name="hasChance">Whether some succeed by chance at the worst levels, so that levels far below the share tell nothing.</param>
    /// <param name="totals">Sums of the study.</param>
    public CurveCrossing(double[] places, double target, CurveLink link, bool hasChance, ReadOnlySpan<double> totals)
    {
        _places = places;
        _target = target;
        _link = link;
        _used = hasChance ? UsedOf(totals) : places.Length;
        _levels = new BinomialLevel[_used];
        double lapse = _used >= 4 ? LargestLapse : 0;
        _fitter = new BinomialCurveFitter(_link, lapse);
        OfStudy = Find(totals);
        if (Curve is { IsStep: false } straight)
        {
            // The bent curve begins at the straight one.
            _first = straight;
            _fitter = new BinomialCurveFitter(_link, lapse, 0, BendOfSlope * straight.Slope * straight.Slope);
            OfStudy = Find(totals);
            _first = Curve;
        }
    }

    /// <summary>The crossing of the study.</summary>
    public Crossing OfStudy { get; }

    /// <summary>Levels that the curve goes through: the best ones.</summary>
    public int UsedLevels => _used;

    /// <summary>The curve of the last <see cref="Find"/>; null when there was none.</summary>
    public BinomialCurve? Curve { get; private set; }

    /// <inheritdoc/>
    public Crossing Find(ReadOnlySpan<double> sums)
    {
        for (int i = 0; i < _used; i++)
        {
            ReadOnlySpan<double> own = sums.Slice(i * FigureColumns.Count, FigureColumns.Count);
            _levels[i] = new BinomialLevel(_places[i], own[1], own[0]);
        }

        // Resamples are like the study: they begin at its curve.
        Curve = _fitter.Fit(_levels, _first);
        if (Curve is null)
        {
            return Crossing.Unknown;
        }

        if (IsFlat(out double share))
        {
            double end = share >= _target ? double.PositiveInfinity : double.NegativeInfinity;
            return new Crossing(end, end);
        }

        int met = 0;
        while (met < _used && (Curve.IsStep ? _levels[met].Successes / _levels[met].Trials : Curve.At(_places[met])) >= _target)
        {
            // A step has no slope that could say where it is: the figures themselves do.
            met++;
        }

        if (met == 0 || met == _used)
        {
            double end = met == 0 ? double.NegativeInfinity : double.PositiveInfinity;
            return new Crossing(end, end);
        }

        return Curve.IsStep ? new Crossing(_places[met - 1], _places[met]) : Between(_places[met - 1], _places[met]);
    }

    /// <inheritdoc/>
    public double FigureAt(double place) => place > _places[_used - 1] ? double.NaN : Curve?.At(place) ?? double.NaN;

    private Crossing Between(double low, double high)
    {
        for (int step = 0; step < 40; step++)
        {
            double middle = (low + high) / 2;
            (low, high) = Curve!.At(middle) >= _target ? (middle, high) : (low, middle);
        }

        return new Crossing(low, low);
    }

    private int UsedOf(ReadOnlySpan<double> totals)
    {
        var shares = new double[_places.Length];
        for (int i = 0; i < shares.Length; i++)
        {
            shares[i] = totals[i * FigureColumns.Count] / totals[(i * FigureColumns.Count) + 1];
        }

        double least = CurveLink.Logit.Share(CurveLink.Logit.Line(_target) - FarBelow);
        double floor = shares.Min();
        double nearFloor = floor + (NearFloor * (_target - floor));
        if (shares.Count(s => s < nearFloor) >= LeastOnFloor)
        {
            least = Math.Max(least, nearFloor);
        }

        int used = 0;
        int worse = 0;
        for (int i = 0; i < _places.Length; i++)
        {
            double share = shares[i];
            worse += share < _target ? 1 : 0;
            if (share >= least || worse <= LeastWorse)
            {
                used = i + 1;
            }
        }

        return used;
    }

    // The same share at every level, for example no miss at all: there is no slope to speak of.
    private bool IsFlat(out double share)
    {
        double successes = 0;
        double trials = 0;
        foreach (BinomialLevel level in _levels)
        {
            successes += level.Successes;
            trials += level.Trials;
        }

        share = successes / trials;
        return successes == 0 || successes == trials;
    }
}
