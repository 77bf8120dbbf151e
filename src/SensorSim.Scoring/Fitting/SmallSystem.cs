// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Fitting;

/// <summary>Solves five equations with a symmetric matrix that is positive but for rounding.</summary>
internal static class SmallSystem
{
    /// <summary>Equations.</summary>
    public const int Size = 5;

    /// <summary>Solves (A + damping × diagonal of A) x = b by Cholesky's square roots.</summary>
    /// <param name="matrix">A, row by row; its lower triangle counts.</param>
    /// <param name="right">b.</param>
    /// <param name="damping">Damping, at least 0.</param>
    /// <param name="solution">Receives x; a direction of which A knows nothing is left out.</param>
    public static void Solve(ReadOnlySpan<double> matrix, ReadOnlySpan<double> right, double damping, Span<double> solution)
    {
        Span<double> lower = stackalloc double[Size * Size];
        Span<double> y = stackalloc double[Size];
        for (int i = 0; i < Size; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = matrix[(Size * i) + j] * (i == j ? 1 + damping : 1);
                double whole = sum;
                for (int k = 0; k < j; k++)
                {
                    sum -= lower[(Size * i) + k] * lower[(Size * j) + k];
                }

                if (i == j)
                {
                    // Nothing left of a row but rounding: its direction is one of those before. An infinite root takes it out.
                    lower[(Size * i) + i] = sum > 1e-13 * whole ? Math.Sqrt(sum) : double.PositiveInfinity;
                }
                else
                {
                    lower[(Size * i) + j] = sum / lower[(Size * j) + j];
                }
            }
        }

        for (int i = 0; i < Size; i++)
        {
            double sum = right[i];
            for (int k = 0; k < i; k++)
            {
                sum -= lower[(Size * i) + k] * y[k];
            }

            y[i] = sum / lower[(Size * i) + i];
        }

        for (int i = Size - 1; i >= 0; i--)
        {
            double sum = y[i];
            for (int k = i + 1; k < Size; k++)
            {
                sum -= lower[(Size * k) + i] * solution[k];
            }

            solution[i] = sum / lower[(Size * i) + i];
        }
    }
}
