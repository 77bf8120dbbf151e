// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Tests.Support;

/// <summary>Statistics by their textbook formulas.</summary>
internal static class Moments
{
    public static double Mean(IReadOnlyList<double> x) => x.Sum() / x.Count;

    /// <summary>Standard deviation with divisor n − 1.</summary>
    public static double Sd(IReadOnlyList<double> x)
    {
        double mean = Mean(x);
        return Math.Sqrt(x.Sum(v => (v - mean) * (v - mean)) / (x.Count - 1));
    }

    /// <summary>Root mean square of successive differences (Task Force 1996).</summary>
    public static double Rmssd(IReadOnlyList<double> x)
    {
        double sum = 0;
        for (int i = 1; i < x.Count; i++)
        {
            sum += (x[i] - x[i - 1]) * (x[i] - x[i - 1]);
        }

        return Math.Sqrt(sum / (x.Count - 1));
    }
}
