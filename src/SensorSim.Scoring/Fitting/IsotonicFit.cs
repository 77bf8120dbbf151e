// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Fitting;

/// <summary>The falling sequence that is nearest to given values (pooling of adjacent violators).</summary>
/// <remarks>Source: Ayer M et al., Ann Math Stat 26:641-647, 1955; Barlow RE et al., Statistical Inference under Order Restrictions, 1972 (both from memory).</remarks>
public static class IsotonicFit
{
    /// <summary>Replaces values by the sequence that never rises and has the least weighted sum of squared distances.</summary>
    /// <param name="values">The values, replaced.</param>
    /// <param name="weights">Their weights, above 0.</param>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static void Falling(Span<double> values, ReadOnlySpan<double> weights)
    {
        if (values.Length != weights.Length)
        {
            throw new ArgumentException("One weight for each value.", nameof(weights));
        }

        Span<double> mean = values.Length <= 256 ? stackalloc double[values.Length] : new double[values.Length];
        Span<double> weight = values.Length <= 256 ? stackalloc double[values.Length] : new double[values.Length];
        Span<int> end = values.Length <= 256 ? stackalloc int[values.Length] : new int[values.Length];
        int blocks = 0;
        for (int i = 0; i < values.Length; i++)
        {
            mean[blocks] = values[i];
            weight[blocks] = weights[i];
            end[blocks++] = i + 1;
            while (blocks > 1 && mean[blocks - 1] > mean[blocks - 2])
            {
                double sum = weight[blocks - 2] + weight[blocks - 1];
                mean[blocks - 2] = ((mean[blocks - 2] * weight[blocks - 2]) + (mean[blocks - 1] * weight[blocks - 1])) / sum;
                weight[blocks - 2] = sum;
                end[blocks - 2] = end[blocks - 1];
                blocks--;
            }
        }

        int from = 0;
        for (int block = 0; block < blocks; block++)
        {
            values[from..end[block]].Fill(mean[block]);
            from = end[block];
        }
    }
}
