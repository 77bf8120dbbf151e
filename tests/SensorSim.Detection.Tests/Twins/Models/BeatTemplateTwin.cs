// SPDX-License-Identifier: MIT
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Statistics;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What one kind of beats looks like, in doubles: vectors and medians of the numerics package.</summary>
internal sealed class BeatTemplateTwin
{
    private readonly double[] _sizes = new double[8];
    private Vector<double> _slopes = Vector<double>.Build.Dense(16);
    private int _sizeAt;

    public int Count { get; private set; }

    public double Size { get; private set; }

    public double Spread => SpreadOf([.. _slopes]);

    /// <summary>Variance of the places, weighted by the squares of the slopes [1/16 step²].</summary>
    public static double SpreadOf(double[] slopes)
    {
        double energy = slopes.Sum(s => s * s);
        if (energy == 0)
        {
            return 0;
        }

        double centre = slopes.Select((s, i) => s * s * (i - 7)).Sum() / energy;
        return 16 * slopes.Select((s, i) => s * s * (i - 7 - centre) * (i - 7 - centre)).Sum() / energy;
    }

    /// <summary>Correlation of the slopes about 0 [1/256].</summary>
    public double Fit(double[] slopes)
    {
        Vector<double> other = Vector<double>.Build.DenseOfArray(slopes);
        double below = _slopes.L2Norm() * other.L2Norm();
        return below == 0 ? 0 : 256 * _slopes.DotProduct(other) / below;
    }

    /// <summary>Size of the part that is like the template.</summary>
    public double SizeOf(double[] slopes, int scale)
    {
        double dot = _slopes.DotProduct(Vector<double>.Build.DenseOfArray(slopes));
        return dot <= 0 ? 0 : Math.ScaleB(dot, scale) / _slopes.L2Norm();
    }

    public void Begin(double[] slopes, int scale)
    {
        _slopes = Vector<double>.Build.DenseOfArray(slopes);
        Count = 1;
        Size = SizeOf(slopes, scale);
        Array.Fill(_sizes, Size);
    }

    public void Add(double[] slopes, double size)
    {
        double part = Count < 2 ? 2 : Count < 4 ? 4 : 8;
        _slopes += (Vector<double>.Build.DenseOfArray(slopes) - _slopes) / part;
        Count = Math.Min(8, Count + 1);
        _sizes[_sizeAt++ & 7] = size;
        Size = _sizes.Median();
    }
}
