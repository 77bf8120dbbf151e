// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The crossing of a search with its interval, by the curve where it fits, else by interpolation.</summary>
internal sealed class CrossingEstimate
{
    // Residuals of the two levels on either side of the crossing; beyond this many standard errors the curve is not believed.
    private const double LargestResidual = 2.5;

    private CrossingEstimate(ICrossingFinder finder, Crossing crossing, Interval? interval, IReadOnlyList<Crossing> found)
    {
        Found = found;
        Finder = finder;
        Crossing = crossing;
        Interval = interval;
    }

    /// <summary>What found it, after it has found that of the study.</summary>
    public ICrossingFinder Finder { get; }

    /// <summary>The crossing, on the axis.</summary>
    public Crossing Crossing { get; }

    /// <summary>Its 95 % interval, on the axis; null without resamples.</summary>
    public Interval? Interval { get; }

    /// <summary>The crossing of each resample; two detectors on the same seeds and subjects have the same resamples, in the same order.</summary>
    public IReadOnlyList<Crossing> Found { get; }

    /// <summary>The curve; null when it was interpolated.</summary>
    public BinomialCurve? Curve => (Finder as CurveCrossing)?.Curve;

    /// <summary>Levels that the curve goes through; 0 when it was interpolated.</summary>
    public int UsedLevels => (Finder as CurveCrossing)?.UsedLevels ?? 0;

    /// <summary>Whether a curve was fitted but did not fit near the crossing.</summary>
    public bool IsCurveRejected { get; private init; }

    /// <summary>Finds the crossing.</summary>
    /// <param name="data">The figures.</param>
    /// <param name="settings">Shape of the curve, figure.</param>
    public static CrossingEstimate Of(SearchData data, FailurePointSettings settings)
    {
        if (!data.Columns.IsShare || data.Columns.Target is not (> 0 and < 1))
        {
            return Resampled(data, new InterpolatedCrossing(data.Places, data.Columns));
        }

        CurveLink link = settings.Shape == CurveShape.Probit ? CurveLink.Probit : CurveLink.Logit;
        var curve = new CurveCrossing(data.Places, data.Columns.Target, link, settings.PassFraction is null, data.Totals);
        Crossing crossing = curve.OfStudy;
        int[] near = Near(data.Places.AsSpan(0, curve.UsedLevels), crossing);
        double[] residuals = [.. near.Select(i => Residual(data, curve, data.Totals, i))];
        var found = new List<Crossing>(data.Resamples.Length);
        var spread = near.Select(_ => new List<double>(data.Resamples.Length)).ToArray();
        foreach (double[] resample in data.Resamples)
        {
            found.Add(curve.Find(resample));
            for (int i = 0; i < near.Length; i++)
            {
                spread[i].Add(Residual(data, curve, resample, near[i]));
            }
        }

        bool isBad = crossing == Crossing.Unknown;
        for (int i = 0; i < near.Length; i++)
        {
            // All or none of n is compatible with up to 3 in n (95 %).
            double error = SearchData.Spread(spread[i].Where(r => !double.IsNaN(r)));
            double trials = data.Totals[(near[i] * FigureColumns.Count) + 1];
            isBad |= Math.Abs(residuals[i]) > Math.Max(LargestResidual * error, 3 / trials);
        }

        if (isBad && data.Resamples.Length > 1)
        {
            return Resampled(data, new InterpolatedCrossing(data.Places, data.Columns), isCurveRejected: true);
        }

        Interval? interval = CrossingInterval.Of(data, curve, found);
        curve.Find(data.Totals);
        return new CrossingEstimate(curve, crossing, interval, found);
    }

    private static CrossingEstimate Resampled(SearchData data, InterpolatedCrossing finder, bool isCurveRejected = false)
    {
        List<Crossing> found = [.. data.Resamples.Select(r => finder.Find(r))];
        Crossing crossing = finder.Find(data.Totals);
        Interval? interval = CrossingInterval.Of(data, finder, found);
        finder.Find(data.Totals);
        return new CrossingEstimate(finder, crossing, interval, found) { IsCurveRejected = isCurveRejected };
    }

    private static int[] Near(ReadOnlySpan<double> places, Crossing crossing)
    {
        int above = 0;
        while (above < places.Length && places[above] < crossing.High)
        {
            above++;
        }

        int first = Math.Clamp(above - 2, 0, Math.Max(0, places.Length - 4));
        return [.. Enumerable.Range(first, Math.Min(4, places.Length - first))];
    }

    private static double Residual(SearchData data, CurveCrossing curve, double[] sums, int index) =>
        data.QualityAt(sums, index) - curve.FigureAt(data.Places[index]);
}
