// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Drawing;

/// <summary>A stretch of samples without a gap.</summary>
/// <param name="First">Index of its first sample.</param>
/// <param name="Length">How many samples.</param>
internal readonly record struct Run(int First, int Length)
{
    internal int Last => First + Length - 1;
}

/// <summary>Cuts a signal into the stretches that have samples.</summary>
internal static class Runs
{
    // One missing sample doubles a step; half of that is more than any clock's jitter.
    private const double LongestStep = 1.5;
    private const int Neighbours = 4;

    internal static List<Run> Of(double[] timesS, double[] values)
    {
        List<Run> runs = [];
        int first = 0;
        for (int i = 0; i <= values.Length; i++)
        {
            bool ends = i == values.Length || !double.IsFinite(values[i]);
            if (ends || (i > first && IsGap(timesS, i)))
            {
                if (i > first)
                {
                    runs.Add(new Run(first, i - first));
                }

                first = ends ? i + 1 : i;
            }
        }

        return runs;
    }

    /// <summary>The stretches of time between the runs, and before and after them where values are not finite.</summary>
    internal static (double From, double To)[] Gaps(double[] timesS, List<Run> runs)
    {
        List<(double From, double To)> gaps = [];
        if (runs.Count > 0 && runs[0].First > 0)
        {
            gaps.Add((timesS[0], timesS[runs[0].First]));
        }

        for (int i = 0; i + 1 < runs.Count; i++)
        {
            gaps.Add((timesS[runs[i].Last], timesS[runs[i + 1].First]));
        }

        if (runs.Count > 0 && runs[^1].Last < timesS.Length - 1)
        {
            gaps.Add((timesS[runs[^1].Last], timesS[^1]));
        }

        return [.. gaps];
    }

    /// <summary>Whether samples are missing between <paramref name="i"/> - 1 and <paramref name="i"/>.</summary>
    /// <remarks>The step must stand out against the steps on both sides: where only the rate changes it does not.</remarks>
    private static bool IsGap(double[] timesS, int i)
    {
        double step = timesS[i] - timesS[i - 1];
        bool isFirst = i == 1;
        bool isLast = i == timesS.Length - 1;

        // The first and the last step have one side only: its nearest step alone, or a change of rate close by would look like a gap.
        double before = Shortest(timesS, Math.Max(1, i - (isLast ? 1 : Neighbours)), i - 1);
        double after = Shortest(timesS, i + 1, Math.Min(timesS.Length - 1, i + (isFirst ? 1 : Neighbours)));
        bool alone = double.IsPositiveInfinity(before) && double.IsPositiveInfinity(after);
        return !alone
            && (double.IsPositiveInfinity(before) || step > LongestStep * before)
            && (double.IsPositiveInfinity(after) || step > LongestStep * after);
    }

    private static double Shortest(double[] timesS, int from, int to)
    {
        double shortest = double.PositiveInfinity;
        for (int i = from; i <= to; i++)
        {
            shortest = Math.Min(shortest, timesS[i] - timesS[i - 1]);
        }

        return shortest;
    }
}
