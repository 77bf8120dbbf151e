// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Drawing;

namespace SensorSim.Reports.Charts;

/// <summary>One axis: its range, even or in ratios, and where it carries numbers or words.</summary>
internal sealed class AxisScale
{
    private static readonly double[] s_shares = [0.001, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999, 0.9999];
    private static readonly double[] s_sharesInShortRange = [0.1, 0.3, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98, 0.99, 0.995, 0.999];

    private readonly double _low;
    private readonly double _high;
    private readonly Func<double, double> _height;
    private readonly double _lowHeight;
    private readonly double _highHeight;

    // The axis is even in what the function gives.
    private AxisScale((double Low, double High) range, Func<double, double> height, double freeShare, double[] positions, string[] labels)
    {
        _low = range.Low;
        _high = range.High;
        _height = height;
        double free = freeShare * (height(_high) - height(_low));
        _lowHeight = height(_low) - free;
        _highHeight = height(_high) + free;
        Positions = positions;
        Labels = labels;
    }

    /// <summary>Where the ticks are, in values.</summary>
    internal double[] Positions { get; }

    /// <summary>What stands at the ticks.</summary>
    internal string[] Labels { get; }

    /// <summary>Words that go behind the title of an axis whose numbers are not evenly spaced shares; empty for any other.</summary>
    internal string Stretched { get; private init; } = "";

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
            return new AxisScale((from, to), Math.Log, 0, at, Array.ConvertAll(at, v => v.ToString("G6", CultureInfo.InvariantCulture)));
        }

        (double low, double high) = span.Padded(freeShare);
        double step = NiceTicks.Step(high - low, mostTicks);
        double[] positions = NiceTicks.Positions(low, high, step);
        return new AxisScale((low, high), v => v, 0, positions, NiceTicks.Labels(positions, step));
    }

    /// <summary>
    /// An axis of a figure. Shares that spread from far below a limit near 1 to 1 go by their log odds: 0.9, 0.99 and 0.999 are then equally far
    /// apart, and what happens about the limit is seen. What lies nearer to 0 or 1 than the ends is drawn there.
    /// </summary>
    internal static AxisScale OfFigure(Span span, bool isShare, double limit, int mostTicks, double freeShare)
    {
        const double NearestToZero = 0.001;
        const double NearestToOne = 0.99999;
        if (!isShare || !(limit >= 0.9 && limit < 1) || !(span.Low < 0.9) || span.Low < 0 || span.High > 1.2)
        {
            return Of(span, false, mostTicks, freeShare);
        }

        double high = Math.Min(NearestToOne, 1 - ((1 - limit) / 8));
        double low = Math.Max(NearestToZero, span.Low);
        double[] inside = [.. (Odds(high) - Odds(low) < 8 ? s_sharesInShortRange : s_shares).Where(t => Odds(t) > Odds(low) + 0.4 && Odds(t) < Odds(high) - 0.4)];
        bool hasZero = span.Low < NearestToZero;
        double[] positions = [.. hasZero ? [low] : Array.Empty<double>(), .. inside, high];
        string[] labels = [.. hasZero ? ["0"] : Array.Empty<string>(), .. inside.Select(t => t.ToString("R", CultureInfo.InvariantCulture)), "1"];
        return new AxisScale((low, high), v => Odds(Math.Clamp(v, low, high)), freeShare, positions, labels) { Stretched = ", scale stretched near 0 and 1" };
    }

    private static double Odds(double share) => Math.Log(share / (1 - share));

    /// <summary>An axis of words or levels with equal room for each; value i is the middle of place i.</summary>
    internal static AxisScale OfPlaces(IReadOnlyList<string> words)
    {
        double[] positions = [.. Enumerable.Range(0, words.Count).Select(i => (double)i)];
        return new AxisScale((-0.5, Math.Max(1, words.Count) - 0.5), v => v, 0, positions, [.. words]);
    }

    /// <summary>Place of a value: 0 at the lower end, 1 at the upper one; not held within them.</summary>
    internal double Share(double value) => (_height(value) - _lowHeight) / (_highHeight - _lowHeight);

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
