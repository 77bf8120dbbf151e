// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Fitting;

/// <summary>
/// Fits a <see cref="BinomialCurve"/> by Fisher scoring: the most likely intercept and slope and, within their bounds, lapse and floor.
/// </summary>
/// <remarks>
/// Levels are centred and scaled for the iteration. A step that does not raise the likelihood is damped (Levenberg). A bounded parameter rests
/// at its bound while the likelihood pulls it out. Source: McCullagh P, Nelder JA, Generalized Linear Models, 1989 (from memory); lapse free
/// within 0 to 0.06: Wichmann FA, Hill NJ, Percept Psychophys 63:1293-1313, 2001 (from memory).
/// </remarks>
public sealed class BinomialCurveFitter
{
    private const int MostIterations = 200;

    private readonly CurveLink _link;
    private readonly double _largestLapse;
    private readonly double _largestFloor;
    private readonly double _bendSd;
    private readonly double[] _gradient = new double[SmallSystem.Size];
    private readonly double[] _information = new double[SmallSystem.Size * SmallSystem.Size];
    private readonly bool[] _isFixed;

    // Of each level: its place, and share and slope of the link at the estimate that was last looked at.
    private double[] _places = [];
    private double[] _parts = [];
    private double[] _slopes = [];
    private double _middle;
    private double _scale;
    private double _bendWeight;

    /// <summary>Creates a fitter.</summary>
    /// <param name="link">The link.</param>
    /// <param name="largestLapse">Largest lapse [0 to 0.5]; 0: none.</param>
    /// <param name="largestFloor">Largest floor [0 to 0.99]; 0: none.</param>
    /// <param name="bendSd">
    /// How much the line may bend: standard deviation of a normal prior of <see cref="BinomialCurve.Bend"/> about 0; 0: straight; infinite: freely.
    /// </param>
    public BinomialCurveFitter(CurveLink link, double largestLapse = 0, double largestFloor = 0, double bendSd = 0)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(largestLapse);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(largestLapse, 0.5);
        ArgumentOutOfRangeException.ThrowIfNegative(largestFloor);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(largestFloor, 0.99);
        _link = link;
        _largestLapse = largestLapse;
        _largestFloor = largestFloor;
        _bendSd = bendSd;
        _isFixed = [false, false, largestLapse == 0, largestFloor == 0, bendSd == 0];
    }

    /// <summary>Fits.</summary>
    /// <param name="levels">The levels; at least two different ones with trials.</param>
    /// <param name="start">A curve to begin at, for example that of similar counts; null: found from the counts.</param>
    /// <returns>The curve; null when there are fewer than two different levels with trials.</returns>
    public BinomialCurve? Fit(ReadOnlySpan<BinomialLevel> levels, BinomialCurve? start = null)
    {
        if (!Centre(levels))
        {
            return null;
        }

        Estimate best = Climb(levels, start is null ? Guess(levels, 0) : Scaled(start));
        if (start is null && _largestFloor > 0)
        {
            // The likelihood with a floor may have two tops: begin once without and once with it.
            Estimate other = Climb(levels, Guess(levels, _largestFloor));
            best = other.Likelihood > best.Likelihood ? other : best;
        }

        return Result(levels, best);
    }

    private bool Centre(ReadOnlySpan<BinomialLevel> levels)
    {
        double weight = 0;
        double sum = 0;
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        foreach (BinomialLevel level in levels)
        {
            if (level.Trials > 0)
            {
                weight++;
                sum += level.Level;
                low = Math.Min(low, level.Level);
                high = Math.Max(high, level.Level);
            }
        }

        _middle = sum / weight;
        _scale = (high - low) / 2;
        _bendWeight = _bendSd == 0 ? 0 : 1 / (_bendSd * _bendSd * Math.Pow(_scale, 4));
        if (_places.Length < levels.Length)
        {
            _places = new double[levels.Length];
            _parts = new double[levels.Length];
            _slopes = new double[levels.Length];
        }

        for (int i = 0; i < levels.Length; i++)
        {
            _places[i] = (levels[i].Level - _middle) / _scale;
        }

        return _scale > 0;
    }

    private Estimate Scaled(BinomialCurve curve) => new(
        curve.Intercept + (_middle * (curve.Slope + (_middle * curve.Bend))),
        (curve.Slope + (2 * curve.Bend * _middle)) * _scale,
        Math.Clamp(curve.Lapse, 0, _largestLapse),
        Math.Clamp(curve.Floor, 0, _largestFloor),
        _bendSd > 0 ? curve.Bend * _scale * _scale : 0);

    // A straight line through the links of the shares, weighted with the trials.
    private Estimate Guess(ReadOnlySpan<BinomialLevel> levels, double mostFloor)
    {
        double least = 1;
        foreach (BinomialLevel level in levels)
        {
            least = level.Trials > 0 ? Math.Min(least, level.Successes / level.Trials) : least;
        }

        double floor = Math.Min(mostFloor, 0.95 * least);
        double lapse = Math.Min(_largestLapse, 0.002);
        double w = 0, wx = 0, wy = 0, wxx = 0, wxy = 0;
        for (int i = 0; i < levels.Length; i++)
        {
            BinomialLevel level = levels[i];
            double share = (level.Successes + 0.5) / (level.Trials + 1);
            double y = _link.Line(Math.Clamp((share - floor) / (1 - floor - lapse), 0.001, 0.999));
            double x = _places[i];
            w += level.Trials;
            wx += level.Trials * x;
            wy += level.Trials * y;
            wxx += level.Trials * x * x;
            wxy += level.Trials * x * y;
        }

        double slope = ((w * wxy) - (wx * wy)) / ((w * wxx) - (wx * wx));
        return new Estimate((wy - (slope * wx)) / w, slope, lapse, floor, 0);
    }

    private Estimate Climb(ReadOnlySpan<BinomialLevel> levels, Estimate at)
    {
        at = at with { Likelihood = Likelihood(levels, at) };
        double damping = 0;
        Span<double> step = stackalloc double[SmallSystem.Size];
        for (int iteration = 0; iteration < MostIterations; iteration++)
        {
            // What was looked at last is what is left from here.
            Differentiate(levels, at);
            Hold(at);
            bool isRaised = false;
            for (int attempt = 0; attempt < 12 && !isRaised; attempt++)
            {
                SmallSystem.Solve(_information, _gradient, damping, step);
                Estimate next = at.Moved(step, _largestLapse, _largestFloor);
                next = next with { Likelihood = Likelihood(levels, next) };
                double change = next.Likelihood - at.Likelihood;
                double tolerance = 1e-12 * (1 + Math.Abs(at.Likelihood));
                if (change >= -tolerance)
                {
                    bool isAtRest = Math.Abs(change) <= tolerance && next.IsNear(at);
                    at = next;
                    if (isAtRest)
                    {
                        return at with { IsConverged = true };
                    }

                    isRaised = true;
                    damping = damping < 1e-3 ? 0 : damping / 10;
                }
                else
                {
                    damping = damping == 0 ? 1e-3 : damping * 10;
                }
            }

            if (!isRaised)
            {
                // No step of any length gets higher: at the top as closely as numbers tell.
                return at with { IsConverged = true };
            }
        }

        return at;
    }

    private void LookAt(int levels, Estimate at)
    {
        for (int i = 0; i < levels; i++)
        {
            _parts[i] = _link.Share(at.Line(_places[i]), out _slopes[i]);
        }
    }

    private double Likelihood(ReadOnlySpan<BinomialLevel> levels, Estimate at)
    {
        LookAt(levels.Length, at);
        double sum = -0.5 * at.Bend * at.Bend * _bendWeight;
        for (int i = 0; i < levels.Length; i++)
        {
            double share = at.Share(_parts[i]);
            sum += Counts(levels[i].Successes, share) + Counts(levels[i].Trials - levels[i].Successes, 1 - share);
        }

        return sum;
    }

    // At the estimate that was last looked at. What is fixed takes no part.
    private void Differentiate(ReadOnlySpan<BinomialLevel> levels, Estimate at)
    {
        Array.Clear(_gradient);
        Array.Clear(_information);
        Span<double> by = stackalloc double[SmallSystem.Size];
        _gradient[4] = -at.Bend * _bendWeight;
        _information[^1] = _bendWeight;
        double range = 1 - at.Floor - at.Lapse;
        for (int level = 0; level < levels.Length; level++)
        {
            double x = _places[level];
            double part = _parts[level];
            double share = Math.Clamp(at.Floor + (range * part), 1e-12, 1 - 1e-12);
            by[0] = range * _slopes[level];
            by[1] = by[0] * x;
            by[2] = -part;
            by[3] = 1 - part;
            by[4] = by[1] * x;
            double variance = share * (1 - share);
            double pull = (levels[level].Successes - (levels[level].Trials * share)) / variance;
            double weight = levels[level].Trials / variance;
            for (int i = 0; i < SmallSystem.Size; i++)
            {
                if (_isFixed[i])
                {
                    continue;
                }

                _gradient[i] += pull * by[i];
                double own = weight * by[i];
                for (int j = 0; j <= i; j++)
                {
                    _information[(SmallSystem.Size * i) + j] += own * by[j];
                }
            }
        }
    }

    // A parameter that is fixed, or rests at a bound and is pulled out of it, takes no part in the step.
    private void Hold(Estimate at)
    {
        HoldIf(2, _isFixed[2] || (at.Lapse <= 0 && _gradient[2] <= 0) || (at.Lapse >= _largestLapse && _gradient[2] >= 0));
        HoldIf(3, _isFixed[3] || (at.Floor <= 0 && _gradient[3] <= 0) || (at.Floor >= _largestFloor && _gradient[3] >= 0));
        HoldIf(4, _isFixed[4]);
    }

    private void HoldIf(int parameter, bool isHeld)
    {
        if (!isHeld)
        {
            return;
        }

        _gradient[parameter] = 0;
        for (int k = 0; k < SmallSystem.Size; k++)
        {
            _information[(SmallSystem.Size * parameter) + k] = 0;
            _information[(SmallSystem.Size * k) + parameter] = 0;
        }

        _information[(SmallSystem.Size + 1) * parameter] = 1;
    }

    private BinomialCurve Result(ReadOnlySpan<BinomialLevel> levels, Estimate at)
    {
        double deviance = 0, pearson = 0;
        int used = 0, sloping = 0;
        LookAt(levels.Length, at);
        for (int i = 0; i < levels.Length; i++)
        {
            BinomialLevel level = levels[i];
            if (level.Trials > 0)
            {
                double share = at.Share(_parts[i]);
                double expected = level.Trials * share;
                double failures = level.Trials - level.Successes;
                deviance += 2 * (Counts(level.Successes, level.Successes / expected) + Counts(failures, failures / (level.Trials - expected)));
                pearson += (level.Successes - expected) * (level.Successes - expected) / (expected * (1 - share));
                used++;
                sloping += _parts[i] is > 0.001 and < 0.999 ? 1 : 0;
            }
        }

        Differentiate(levels, at);
        double i00 = _information[0], i10 = _information[SmallSystem.Size], i11 = _information[SmallSystem.Size + 1];
        double determinant = (i00 * i11) - (i10 * i10);
        double v00 = i11 / determinant, v01 = -i10 / determinant, v11 = i00 / determinant;

        // Back to levels from x = (level − middle) / scale.
        double shift = _middle / _scale;
        return new BinomialCurve
        {
            Link = _link,
            Intercept = at.Intercept - (shift * (at.Slope - (shift * at.Bend))),
            Slope = (at.Slope - (2 * shift * at.Bend)) / _scale,
            Bend = at.Bend / (_scale * _scale),
            Lapse = at.Lapse,
            Floor = at.Floor,
            InterceptVariance = v00 - (2 * shift * v01) + (shift * shift * v11),
            SlopeVariance = v11 / (_scale * _scale),
            Covariance = (v01 - (shift * v11)) / _scale,
            Deviance = deviance,
            PearsonX2 = pearson,
            DegreesOfFreedom = used - 2 - (_largestLapse > 0 ? 1 : 0) - (_largestFloor > 0 ? 1 : 0) - (_bendSd > 0 ? 1 : 0),
            IsConverged = at.IsConverged,
            IsStep = sloping < 2,
            SlopingLevels = sloping,
        };
    }

    private static double Counts(double count, double share) => count == 0 ? 0 : count * Math.Log(Math.Max(share, 1e-300));

    private readonly record struct Estimate(double Intercept, double Slope, double Lapse, double Floor, double Bend)
    {
        public double Likelihood { get; init; }

        public bool IsConverged { get; init; }

        public double Share(double part) => Floor + ((1 - Floor - Lapse) * part);

        public double Line(double x) => Intercept + (x * (Slope + (x * Bend)));

        public Estimate Moved(ReadOnlySpan<double> step, double largestLapse, double largestFloor) => new(
            Intercept + step[0],
            Slope + step[1],
            Math.Clamp(Lapse + step[2], 0, largestLapse),
            Math.Clamp(Floor + step[3], 0, largestFloor),
            Bend + step[4]);

        // Far out on a step the line may run away for ever; what no longer moves the likelihood is then at rest as well.
        public bool IsNear(Estimate other) => (Math.Abs(Intercept - other.Intercept) < 1e-7 * (1 + Math.Abs(Intercept))
            && Math.Abs(Slope - other.Slope) < 1e-7 * (1 + Math.Abs(Slope))
            && Math.Abs(Bend - other.Bend) < 1e-7 * (1 + Math.Abs(Bend))) || Math.Abs(Slope) > 1000;
    }
}
