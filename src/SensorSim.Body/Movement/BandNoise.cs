// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Broad random vibration of rms 1 from about 1 to 20 Hz: normal draws at nodes less the mean of their neighbourhood, joined by cubic B-splines.</summary>
/// <remarks>
/// 64 nodes a second: the spline has half power at 15 Hz (0.23 of the node rate). Taking off the mean of 33 nodes, 0.52 s,
/// takes off what is slower than about 1.2 Hz. The variance follows in closed form from the weights of the draws and the splines'
/// correlation, 151/315, 397/1680, 1/42 and 1/5040 at 0 to 3 nodes (B-spline of order 7 at whole numbers; Unser 1999).
/// </remarks>
internal sealed class BandNoise
{
    /// <summary>Nodes in a second.</summary>
    public const double NodesPerSecond = 64;

    /// <summary>Draws to either side of a node whose mean is taken off it.</summary>
    public const int ReachNodes = 16;

    /// <summary>Draws of which the mean is taken.</summary>
    public const int Window = (2 * ReachNodes) + 1;

    private static readonly double[] s_correlation = [151.0 / 315, 397.0 / 1680, 1.0 / 42, 1.0 / 5040];
    private static readonly double s_scale = 1 / Math.Sqrt(Variance());
    private readonly KeyedRandom _random;

    public BandNoise(KeyedRandom random) => _random = random;

    /// <summary>The noise at a time.</summary>
    public double At(double seconds)
    {
        double place = seconds * NodesPerSecond;
        double node = Math.Floor(place);
        Span<double> w = stackalloc double[4];
        for (int i = 0; i < 4; i++)
        {
            double mean = 0;
            for (int j = -ReachNodes; j <= ReachNodes; j++)
            {
                mean += _random.Normal((long)node - 1 + i + j) / Window;
            }

            w[i] = s_scale * (_random.Normal((long)node - 1 + i) - mean);
        }

        return Spline(w, place - node);
    }

    /// <summary>Draws as they stand before the mean about them is taken off.</summary>
    /// <param name="draws">Receives them.</param>
    /// <param name="first">Node of the first one.</param>
    public void Draw(Span<double> draws, long first) => _random.FillNormals(draws, first, s_scale);

    private static double Spline(ReadOnlySpan<double> w, double u)
    {
        double c0 = w[0] + (4 * w[1]) + w[2];
        double c1 = 3 * (w[2] - w[0]);
        double c2 = 3 * (w[0] - (2 * w[1]) + w[2]);
        double c3 = w[3] - w[0] + (3 * (w[1] - w[2]));
        return (c0 + (u * (c1 + (u * (c2 + (u * c3)))))) / 6;
    }

    // Sum over pairs of draws of weight × weight × the splines' correlation at their distance.
    private static double Variance()
    {
        static double Weight(int i) => (i == 0 ? 1 : 0) - (Math.Abs(i) <= ReachNodes ? 1.0 / Window : 0);
        double sum = 0;
        for (int i = -ReachNodes; i <= ReachNodes; i++)
        {
            for (int j = Math.Max(-ReachNodes, i - 3); j <= Math.Min(ReachNodes, i + 3); j++)
            {
                sum += Weight(i) * Weight(j) * s_correlation[Math.Abs(i - j)];
            }
        }

        return sum;
    }
}
