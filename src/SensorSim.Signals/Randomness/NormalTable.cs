// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Randomness;

/// <summary>Cubics for the normal quantile: 32 halvings of the tail probability times 64 segments, 4 coefficients each.</summary>
/// <remarks>
/// The argument is an odd whole number x below 2^32, standing for the tail probability x / 2^33. Written as a double,
/// x = 2^e (1 + s/64 + t): e and s, which stand side by side in its bits, are the row e × 64 + s, and t from 0 to 1/64 is
/// the cubic's variable. Each cubic meets the quantile at the four Chebyshev nodes of its segment.
/// </remarks>
internal static class NormalTable
{
    /// <summary>Rows that stand once more behind the others: those of the two smallest e.</summary>
    public const int RowsAgain = 2 * 64;

    private const int Rows = 32 * 64;
    private const int Each = 4;

    /// <summary>Coefficients of t^0, t^1, t^2, t^3, row by row, and behind them the first rows again.</summary>
    /// <remarks>So the rows may also be numbered by (e - 2) modulo 32, from row <see cref="RowsAgain"/> on: what the bits of x / 2 give.</remarks>
    public static readonly double[] Coefficients = Build();

    /// <summary>Coefficients without the rows that stand there again.</summary>
    public static ReadOnlySpan<double> Once => Coefficients.AsSpan(0, Rows * Each);

    private static double[] Build()
    {
        var table = new double[(Rows + RowsAgain) * Each];
        double outer = Math.Sqrt(2 + Math.Sqrt(2)) / 2; // cos(π/8)
        double inner = Math.Sqrt(2 - Math.Sqrt(2)) / 2; // cos(3π/8)
        ReadOnlySpan<double> nodes = [(1 - outer) / 128, (1 - inner) / 128, (1 + inner) / 128, (1 + outer) / 128];
        double power = 1.0 / (1L << 33);
        for (int row = 0; row < Rows; row++)
        {
            double start = 1 + ((row & 63) / 64.0);
            FillRow(table.AsSpan(row * Each, Each), nodes, start, power);
            power = (row & 63) == 63 ? power * 2 : power;
        }

        table.AsSpan(0, RowsAgain * Each).CopyTo(table.AsSpan(Rows * Each));
        return table;
    }

    private static void FillRow(Span<double> row, ReadOnlySpan<double> nodes, double start, double power)
    {
        // Newton's divided differences, then from the highest term down to powers of t.
        for (int i = 0; i < 4; i++)
        {
            row[i] = NormalQuantile.UpperTail((start + nodes[i]) * power);
        }

        for (int order = 1; order < 4; order++)
        {
            for (int i = 3; i >= order; i--)
            {
                row[i] = (row[i] - row[i - 1]) / (nodes[i] - nodes[i - order]);
            }
        }

        for (int first = 2; first >= 0; first--)
        {
            for (int i = first; i < 3; i++)
            {
                row[i] -= nodes[first] * row[i + 1];
            }
        }
    }
}
