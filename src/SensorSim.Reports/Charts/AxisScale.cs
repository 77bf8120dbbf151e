// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Drawing;

namespace SensorSim.Reports.Charts;

/// <summary>One axis: its range, even or in ratios, and where it carries numbers or words.</summary>
internal sealed class AxisScale
{
    private readonly double _low;
    private readonly double _high;
    private readonly bool _isInRatios;

    private AxisScale(double low, double high, bool isInRatios, double[] positions, string[] labels)
    {
        _low = low;
        _high = high;
        _isInRatios = isInRatios;
        Positions = positions;
        Labels = labels;
    }

    /// <summary>Where the ticks are, in values.</summary>
    internal double[] Positions { get; }

    /// <summary>What stands at the ticks.</summary>
    internal string[] Labels { get; }

    internal double Low => _low;

    internal double High => _high;

    /// <summary>An axis of numbers; in ratios only where all of it lies above 0.</summary>
    internal static AxisScale Of(Span span, bool isInRatios, int mostTicks, double freeShare)
    {
        if (isInRatios && !span.IsEmpty && span.Low > 0)
        {
            Span logs = new();
            logs.Include(Math.Log10(span.Low));
            logs.Include(Math.Log10(span.High));
            (double logLow, double logHigh) = span.High > span.Low * 1.000001 ? logs.Padded(freeShare) : (logs.Low - 0.2, logs.High + 0.2);
            (double from, double to) = (Math.Pow(10, logLow), Math.Pow(10, logHigh));
            double[] at = RatioTicks(from, to, mostTicks);
            return new AxisScale(from, to, true, at, Array.ConvertAll(at, v => v.ToString("G6", CultureInfo.InvariantCulture)));
        }

        (double low, double high) = span.Padded(freeShare);
        double step = NiceTicks.Step(high - low, mostTicks);
        double[] positions = NiceTicks.Positions(low, high, step);
        return new AxisScale(low, high, false, positions, NiceTicks.Labels(positions, step));
    }

    /// <summary>An axis of words or levels with equal room for each; value i is the middle of place i.</summary>
    internal static AxisScale OfPlaces(IReadOnlyList<string> words)
    {
        double[] positions = [.. Enumerable.Range(0, words.Count).Select(i => (double)i)];
        return new AxisScale(-0.5, Math.Max(1, words.Count) - 0.5, false, positions, [.. words]);
    }

    /// <summary>Place of a value: 0 at the lower end, 1 at the upper one; not held within them.</summary>
    internal double Share(double value) => _isInRatios
        ? Math.Log(value / _low) / Math.Log(_high / _low)
        : (value - _low) / (_high - _low);

    // 1, 2 and 5 times powers of ten; only powers where these are too many; even steps where they are too few.
    private static double[] RatioTicks(double low, double high, int most)
    {
        int first = (int)Math.Floor(Math.Log10(low));
        int last = (int)Math.Ceiling(Math.Log10(high));
        double[] powers = [.. Enumerable.Range(first, last - first + 1).Select(p => Math.Pow(10, p))];
        double[] fine = [.. powers.SelectMany(p => new[] { p, 2 * p, 5 * p }).Where(v => v >= low && v <= high)];
        double[] coarse = [.. powers.Where(v => v >= low && v <= high)];
        if (fine.Length < 3)
        {
            return NiceTicks.Positions(low, high, NiceTicks.Step(high - low, Math.Min(most, 5)));
        }

        if (fine.Length <= most)
        {
            return fine;
        }

        int every = Math.Max(1, (coarse.Length + most - 1) / most);
        return [.. coarse.Where((_, i) => i % every == 0)];
    }
}
