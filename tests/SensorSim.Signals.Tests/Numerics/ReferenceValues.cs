// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Signals.Tests.Numerics;

/// <summary>One true value: the nearest double and what it lacks [ulp].</summary>
public readonly record struct ReferenceValue(double X, double Y, double Nearest, double LacksUlp)
{
    /// <summary>Error of a computed value [ulp of the true value].</summary>
    public double ErrorUlp(double actual)
    {
        double ulp = Math.BitIncrement(Math.Abs(Nearest)) - Math.Abs(Nearest);
        return Math.Abs(((actual - Nearest) / ulp) - LacksUlp);
    }
}

/// <summary>Reads the values that Reference/make_reference.py computed with mpmath.</summary>
public static class ReferenceValues
{
    /// <summary>All values of one function.</summary>
    public static List<ReferenceValue> Of(string function)
    {
        using Stream file = typeof(ReferenceValues).Assembly.GetManifestResourceStream("portable-functions.csv")!;
        using var reader = new StreamReader(file);
        var values = new List<ReferenceValue>();
        while (reader.ReadLine() is string line)
        {
            string[] fields = line.Split(',');
            if (fields[0] == function)
            {
                values.Add(new ReferenceValue(
                    Number(fields[1]), Number(fields[2]), Number(fields[3]), double.Parse(fields[4], CultureInfo.InvariantCulture)));
            }
        }

        return values;
    }

    private static double Number(string bits) =>
        bits.Length == 0 ? 0 : BitConverter.UInt64BitsToDouble(ulong.Parse(bits, NumberStyles.HexNumber, CultureInfo.InvariantCulture));
}
