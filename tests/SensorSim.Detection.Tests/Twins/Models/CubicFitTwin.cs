// SPDX-License-Identifier: MIT
using MathNet.Numerics.LinearAlgebra;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Slope and level in the middle of the least-squares cubic: weights from a pseudo-inverse of the matrix package.</summary>
internal sealed class CubicFitTwin
{
    private readonly double[] _level;
    private readonly double[] _slope;
    private readonly int _arm;

    public CubicFitTwin(int arm, in TwinWords words = default)
    {
        _arm = arm;
        Matrix<double> powers = Matrix<double>.Build.Dense((2 * arm) + 1, 4, (i, j) => Math.Pow(i - arm, j));
        Matrix<double> inverse = powers.PseudoInverse();
        TwinWords kept = words;
        _level = [.. inverse.Row(0).Select(x => kept.Coefficient(x))];
        _slope = [.. inverse.Row(1).Select(x => kept.Coefficient(x))];
    }

    public double Level(double[] x, int at) => Apply(_level, x, at);

    public double Slope(double[] x, int at) => Apply(_slope, x, at);

    private double Apply(double[] weights, double[] x, int at)
    {
        // Relative to the middle, as the stage does: rounded weights then pass a constant exactly only if they sum to 1.
        double reference = Held(x, at);
        double sum = 0;
        for (int k = -_arm; k <= _arm; k++)
        {
            sum += weights[k + _arm] * (Held(x, at + k) - reference);
        }

        return sum + (ReferenceEquals(weights, _level) ? reference : 0);
    }

    private static double Held(double[] x, int at) => x[Math.Clamp(at, 0, x.Length - 1)];
}
