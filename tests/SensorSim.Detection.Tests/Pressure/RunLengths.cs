// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace SensorSim.Detection.Tests.Pressure;

/// <summary>Average run lengths of cumulative sums of standard normal values, in floating point and by other means than the library.</summary>
internal static class RunLengths
{
    /// <summary>One side, by a Markov chain over the sum cut into cells (Brook and Evans 1972).</summary>
    public static double OneSided(double k, double h, double shift, int cells = 120)
    {
        // Cell 0 is the point 0 with half a width above it; cell j reaches half a width to both sides of j w.
        double w = 2 * h / ((2 * cells) - 1);
        Matrix<double> system = Matrix<double>.Build.DenseIdentity(cells);
        for (int i = 0; i < cells; i++)
        {
            for (int j = 0; j < cells; j++)
            {
                double upper = Normal.CDF(shift - k, 1, ((j - i) * w) + (w / 2));
                double lower = j == 0 ? 0 : Normal.CDF(shift - k, 1, ((j - i) * w) - (w / 2));
                system[i, j] -= upper - lower;
            }
        }

        return system.Solve(Vector<double>.Build.Dense(cells, 1.0))[0];
    }

    /// <summary>Both sides together: the reciprocals add.</summary>
    public static double TwoSided(double k, double h, double shift) =>
        1 / ((1 / OneSided(k, h, shift)) + (1 / OneSided(k, h, -shift)));

    /// <summary>Siegmund's approximation for both sides without a shift.</summary>
    public static double Siegmund(double k, double h)
    {
        double y = 2 * k * (h + 1.166);
        return (Math.Exp(y) - y - 1) / (4 * k * k);
    }

    /// <summary>A standard normal draw.</summary>
    public static double Draw(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
