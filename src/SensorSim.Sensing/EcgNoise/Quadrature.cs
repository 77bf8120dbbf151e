// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.EcgNoise;

/// <summary>Integrals of smooth functions: power of a spectrum within a band.</summary>
internal static class Quadrature
{
    private const int Intervals = 64;

    /// <summary>Simpson's rule over 64 intervals.</summary>
    /// <param name="function">The function.</param>
    /// <param name="from">Lower end.</param>
    /// <param name="to">Upper end; the integral is 0 if it lies below the lower one.</param>
    public static double Integrate(Func<double, double> function, double from, double to)
    {
        if (!(to > from))
        {
            return 0;
        }

        double width = (to - from) / Intervals;
        double sum = function(from) + function(to);
        for (int i = 1; i < Intervals; i++)
        {
            sum += ((i & 1) == 1 ? 4 : 2) * function(from + (i * width));
        }

        return sum * width / 3;
    }
}
