// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Drawing;

/// <summary>Joins fine bins into bars wide enough to see.</summary>
internal readonly record struct Bars(double FirstMs, double WidthMs, double[] Heights)
{
    private const int MostBars = 48;

    internal double LastMs => FirstMs + (WidthMs * Heights.Length);

    internal double Highest => Heights.Length == 0 ? 0 : Heights.Max();

    /// <summary>Bars at multiples of 1, 2 or 5 times a power of ten, never finer than the bins.</summary>
    internal static Bars Of(double firstBinMs, double binWidthMs, long[] counts)
    {
        int from = Array.FindIndex(counts, count => count != 0);
        if (from < 0)
        {
            return new Bars(0, binWidthMs, []);
        }

        int to = Array.FindLastIndex(counts, count => count != 0);
        double spanMs = (to - from + 1) * binWidthMs;
        double widthMs = Math.Max(binWidthMs, NiceTicks.Step(spanMs, MostBars));
        double MiddleOf(int bin) => firstBinMs + ((bin + 0.5) * binWidthMs);
        double firstBar = Math.Floor(MiddleOf(from) / widthMs);
        double[] heights = new double[(int)(Math.Floor(MiddleOf(to) / widthMs) - firstBar) + 1];
        for (int bin = from; bin <= to; bin++)
        {
            heights[(int)(Math.Floor(MiddleOf(bin) / widthMs) - firstBar)] += counts[bin];
        }

        return new Bars(firstBar * widthMs, widthMs, heights);
    }
}
