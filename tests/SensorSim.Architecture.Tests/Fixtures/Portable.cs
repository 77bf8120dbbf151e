// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Architecture.Tests.Fixtures;

/// <summary>Everything here is allowed: the checks must stay silent. Read as compiled code, never run.</summary>
internal static class Portable
{
    public static double Exact(double x)
        => Math.Sqrt(Math.Abs(x)) + Math.Floor(x) + Math.Ceiling(x) + Math.Truncate(x) + Math.Round(x) + Math.Min(x, Math.Max(1, x))
            + Math.CopySign(1, x) + (x % 2) + BitConverter.Int64BitsToDouble(BitConverter.DoubleToInt64Bits(x) & long.MaxValue);

    public static bool Tests(double x) => double.IsNaN(x) || double.IsFinite(x) || double.IsNegative(x) || x.Equals(2.0);

    public static ulong Whole(ulong x, out ulong low) => Math.BigMul(x, x, out low) + (ulong)System.Numerics.BitOperations.LeadingZeroCount(x);

    public static Vector256<double> Lanes(Vector256<double> x, Vector128<int> index)
    {
        Vector256<double> sum = Avx.IsSupported ? Avx.Add(Avx.Multiply(x, x), Avx.Sqrt(x)) : (x * x) + Vector256.Sqrt(x);
        return sum + Avx.ConvertToVector256Double(index) + Vector256.Create(1.0).WithElement(2, 3.0);
    }

    public static IEnumerable<double> Iterator(double x)
    {
        yield return x;
    }

    public static string InvariantMessage(double x) => string.Create(CultureInfo.InvariantCulture, $"{x} mV");
}

/// <summary>Reads and writes numbers; allowed where the namespace is one of the text places.</summary>
internal static class PortableText
{
    public static bool Read(string text, out double x) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out x);

    public static string Write(double x) => x.ToString("R", CultureInfo.InvariantCulture);
}

/// <summary>A record: its compiler-made members use hash codes, and its own hash may.</summary>
internal sealed record PortableRecord(string Name, double Value);

/// <summary>A hand-written hash code, for dictionaries only.</summary>
internal readonly struct PortableKey(int value) : IEquatable<PortableKey>
{
    private readonly int _value = value;

    public bool Equals(PortableKey other) => _value == other._value;

    public override bool Equals(object? obj) => obj is PortableKey other && Equals(other);

    public override int GetHashCode() => HashCode.Combine(_value, 7);
}
