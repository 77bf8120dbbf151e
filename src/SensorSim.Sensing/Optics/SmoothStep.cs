// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Optics;

/// <summary>A step with level ends: 3x² − 2x³ over its length, 0 before and 1 after.</summary>
internal static class SmoothStep
{
    /// <summary>The step.</summary>
    /// <param name="x">Time since it began over its length.</param>
    public static double At(double x)
    {
        x = Math.Max(0, Math.Min(1, x));
        return x * x * (3 - (2 * x));
    }

    /// <summary>Adds a step to samples of a grid, four at a time and the rest one by one: the same bits.</summary>
    /// <param name="values">Element i is that of sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="fromSeconds">Where it begins [s].</param>
    /// <param name="overSeconds">Its length [s].</param>
    /// <param name="height">Its height.</param>
    public static void Add(Span<double> values, in SampleGrid grid, long firstIndex, double fromSeconds, double overSeconds, double height)
    {
        int i = 0;
        for (; i + 4 <= values.Length; i += 4)
        {
            Vector256<double> index = Vector256.Create((double)(firstIndex + i)) + Vector256.Create(0.0, 1, 2, 3);
            Vector256<double> seconds = Vector256.Create(grid.StartSeconds) + (index * grid.StepSeconds);
            Vector256<double> x = (seconds - Vector256.Create(fromSeconds)) / overSeconds;
            x = Vector256.ConditionalSelect(Vector256.LessThan(x, Vector256<double>.One), x, Vector256<double>.One);
            x = Vector256.GreaterThan(x, Vector256<double>.Zero) & x;
            Vector256<double> step = x * x * (Vector256.Create(3.0) - (2 * x));
            (Vector256.Create<double>(values[i..]) + (step * height)).CopyTo(values[i..]);
        }

        for (; i < values.Length; i++)
        {
            values[i] += height * At((grid.Seconds(firstIndex + i) - fromSeconds) / overSeconds);
        }
    }
}
