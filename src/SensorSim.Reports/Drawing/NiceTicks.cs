// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Reports.Drawing;

/// <summary>Tick positions at round numbers with invariant labels.</summary>
internal static class NiceTicks
{
    /// <summary>The step 1, 2 or 5 times a power of ten that gives at most <paramref name="most"/> steps over the span.</summary>
    internal static double Step(double span, int most)
    {
        double raw = span / Math.Max(1, most);
        double power = Math.Pow(10, Math.Floor(Math.Log10(raw)));
        double[] multiples = [1, 2, 5, 10];
        foreach (double multiple in multiples)
        {
            if (multiple * power >= raw * 0.999999)
            {
                return multiple * power;
            }
        }

        return 10 * power;
    }

    /// <summary>The multiples of <paramref name="step"/> from <paramref name="low"/> to <paramref name="high"/>.</summary>
    internal static double[] Positions(double low, double high, double step)
    {
        double first = Math.Ceiling((low / step) - 1e-9);
        int count = Math.Max(0, (int)(Math.Floor((high / step) + 1e-9) - first) + 1);
        double[] positions = new double[count];
        for (int i = 0; i < count; i++)
        {
            // The addition turns a negative zero into zero.
            positions[i] = ((first + i) * step) + 0.0;
        }

        return positions;
    }

    /// <summary>Labels with just the decimals that the step needs.</summary>
    internal static string[] Labels(double[] positions, double step)
    {
        double largest = positions.Length == 0 ? 0 : Math.Max(Math.Abs(positions[0]), Math.Abs(positions[^1]));
        int decimals = Math.Max(0, -(int)Math.Floor(Math.Log10(step) + 1e-6));
        string format = largest >= 1e7 || decimals > 5 ? "0.###E0" : "F" + decimals.ToString(CultureInfo.InvariantCulture);
        return Array.ConvertAll(positions, position => position.ToString(format, CultureInfo.InvariantCulture));
    }
}
