// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Fitting;

/// <summary>A smooth curve through points that never rises where the points do not.</summary>
/// <remarks>
/// Piecewise cubic; the slope at a point is the weighted harmonic mean of those beside it. Source: Fritsch FN, Butland J, SIAM J Sci Stat Comput
/// 5:300-304, 1984 (from memory). At the two ends the slope is that of the chord.
/// </remarks>
public static class MonotoneCubic
{
    /// <summary>The value of the curve.</summary>
    /// <param name="levels">Levels of the points, ascending, at least two.</param>
    /// <param name="values">Their values, never rising.</param>
    /// <param name="level">Where; outside of the points the curve is level.</param>
    public static double At(ReadOnlySpan<double> levels, ReadOnlySpan<double> values, double level)
    {
        if (level <= levels[0])
        {
            return values[0];
        }

        int i = 0;
        while (i + 1 < levels.Length && levels[i + 1] < level)
        {
            i++;
        }

        return i + 1 == levels.Length ? values[^1] : Inside(levels, values, i, (level - levels[i]) / (levels[i + 1] - levels[i]));
    }

    /// <summary>The level from which on the curve is below a target.</summary>
    /// <param name="levels">Levels of the points, ascending, at least two.</param>
    /// <param name="values">Their values, never rising.</param>
    /// <param name="target">The target.</param>
    /// <returns>The level; plus infinity when no point is below the target, minus infinity when all are.</returns>
    public static double Crossing(ReadOnlySpan<double> levels, ReadOnlySpan<double> values, double target)
    {
        if (values[0] < target)
        {
            return double.NegativeInfinity;
        }

        int i = 1;
        while (i < values.Length && values[i] >= target)
        {
            i++;
        }

        if (i == values.Length)
        {
            return double.PositiveInfinity;
        }

        // Halving needs no more than that the curve never rises.
        double low = 0;
        double high = 1;
        for (int step = 0; step < 40; step++)
        {
            double middle = (low + high) / 2;
            (low, high) = Inside(levels, values, i - 1, middle) >= target ? (middle, high) : (low, middle);
        }

        return levels[i - 1] + (low * (levels[i] - levels[i - 1]));
    }

    private static double Inside(ReadOnlySpan<double> levels, ReadOnlySpan<double> values, int i, double t)
    {
        double width = levels[i + 1] - levels[i];
        double left = SlopeAt(levels, values, i) * width;
        double right = SlopeAt(levels, values, i + 1) * width;
        double rise = values[i + 1] - values[i];
        return values[i] + (t * (left + (t * ((3 * rise) - (2 * left) - right + (t * (left + right - (2 * rise)))))));
    }

    private static double SlopeAt(ReadOnlySpan<double> levels, ReadOnlySpan<double> values, int i)
    {
        if (i == 0 || i == levels.Length - 1)
        {
            return Chord(levels, values, i == 0 ? 0 : i - 1);
        }

        double before = Chord(levels, values, i - 1);
        double after = Chord(levels, values, i);
        if (before * after <= 0)
        {
            return 0;
        }

        double a = levels[i] - levels[i - 1];
        double b = levels[i + 1] - levels[i];
        double share = (a + (2 * b)) / (3 * (a + b));
        return before * after / ((share * after) + ((1 - share) * before));
    }

    private static double Chord(ReadOnlySpan<double> levels, ReadOnlySpan<double> values, int i) =>
        (values[i + 1] - values[i]) / (levels[i + 1] - levels[i]);
}
