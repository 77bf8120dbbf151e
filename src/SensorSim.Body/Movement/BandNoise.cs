// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;
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
    private const double PerSecond = 64;
    private const int Reach = 16;
    private const int Window = (2 * Reach) + 1;
    private static readonly double[] s_correlation = [151.0 / 315, 397.0 / 1680, 1.0 / 42, 1.0 / 5040];
    private static readonly double s_scale = 1 / Math.Sqrt(Variance());
    private readonly KeyedRandom _random;

    public BandNoise(KeyedRandom random) => _random = random;

    /// <summary>Nodes that a block on a grid may need, those of the neighbourhood included.</summary>
    public static int NodesOf(SampleGrid grid) =>
        (int)Math.Ceiling(MovementBlock.LengthOn(grid) * grid.StepSeconds * PerSecond) + 6 + (2 * Reach);

    /// <summary>The noise at a time.</summary>
    public double At(double seconds)
    {
        double place = seconds * PerSecond;
        double node = Math.Floor(place);
        Span<double> w = stackalloc double[4];
        for (int i = 0; i < 4; i++)
        {
            double mean = 0;
            for (int j = -Reach; j <= Reach; j++)
            {
                mean += _random.Normal((long)node - 1 + i + j) / Window;
            }

            w[i] = s_scale * (_random.Normal((long)node - 1 + i) - mean);
        }

        return Spline(w, place - node);
    }

    /// <summary>Adds the noise to a block.</summary>
    /// <param name="block">The block.</param>
    /// <param name="target">The axis.</param>
    /// <param name="sizes">Size for each sample.</param>
    /// <param name="nodes">Working space, as long as <see cref="NodesOf"/> says.</param>
    public void Add(MovementBlock block, Span<double> target, ReadOnlySpan<double> sizes, Span<double> nodes)
    {
        long first = (long)Math.Floor(block.BeginSeconds * PerSecond) - 1;
        int count = (int)((long)Math.Floor(block.EndSeconds * PerSecond) + 2 - first) + 1;
        Span<double> draws = nodes[..(count + (2 * Reach))];
        draws.Clear();
        _random.AddNormals(draws, first - Reach, s_scale);

        // Each node less the mean about it, in place: a node is not needed once the window's tail has passed it.
        double sum = 0;
        for (int i = 0; i < Window; i++)
        {
            sum += draws[i];
        }

        for (int i = 0; i < count; i++)
        {
            double leaves = draws[i];
            draws[i] = draws[i + Reach] - (sum / Window);
            if (i + 1 < count)
            {
                sum += draws[i + Window] - leaves;
            }
        }

        for (int i = 0; i < target.Length; i++)
        {
            double place = block.Seconds(i) * PerSecond;
            double node = Math.Floor(place);
            target[i] += sizes[i] * Spline(draws.Slice((int)((long)node - 1 - first), 4), place - node);
        }
    }

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
        static double Weight(int i) => (i == 0 ? 1 : 0) - (Math.Abs(i) <= Reach ? 1.0 / Window : 0);
        double sum = 0;
        for (int i = -Reach; i <= Reach; i++)
        {
            for (int j = Math.Max(-Reach, i - 3); j <= Math.Min(Reach, i + 3); j++)
            {
                sum += Weight(i) * Weight(j) * s_correlation[Math.Abs(i - j)];
            }
        }

        return sum;
    }
}
