// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Bluetooth;

/// <summary>A number of 16 bits, mantissa × 10^exponent, as health devices send it: SFLOAT of IEEE 11073-20601.</summary>
/// <remarks>
/// The exponent stands in the upper 4 bits, the mantissa in the lower 12, both two's complement. Some mantissas at exponent 0 are no numbers; none of
/// those is ever made of a number, for mantissas stay within ±2045 at each exponent (common practice).
/// </remarks>
/// <param name="Raw">The 16 bits.</param>
public readonly record struct SFloat(ushort Raw)
{
    private const int LargestMantissa = 2045;
    private const int LargestExponent = 7;
    private const int SmallestExponent = -8;

    /// <summary>No number: not measured, or not known.</summary>
    public static SFloat NotANumber => new(0x07FF);

    /// <summary>The value cannot be told at this resolution.</summary>
    public static SFloat NotAtThisResolution => new(0x0800);

    /// <summary>Above what can be told.</summary>
    public static SFloat PositiveInfinity => new(0x07FE);

    /// <summary>Below what can be told.</summary>
    public static SFloat NegativeInfinity => new(0x0802);

    /// <summary>Mantissa, −2048 to 2047.</summary>
    public int Mantissa => (short)(Raw << 4) >> 4;

    /// <summary>Exponent of ten, −8 to 7.</summary>
    public int Exponent => (short)Raw >> 12;

    /// <summary>Whether it is one of the special values, or the one that is reserved.</summary>
    public bool IsSpecial => Raw is >= 0x07FE and <= 0x0802;

    /// <summary>The value; NaN also when it is not at this resolution or reserved.</summary>
    public double Value => Raw switch
    {
        0x07FE => double.PositiveInfinity,
        0x0802 => double.NegativeInfinity,
        >= 0x07FF and <= 0x0801 => double.NaN,
        _ => Exponent < 0 ? Mantissa / Math.Pow(10, -Exponent) : Mantissa * Math.Pow(10, Exponent),
    };

    /// <summary>A value at the resolution of its sensor, and coarser only where it would not fit; halves are rounded away from zero.</summary>
    /// <param name="milli">The value in thousandths.</param>
    /// <param name="exponent">Resolution as an exponent of ten, −8 to 7: −1 for tenths.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such exponent.</exception>
    public static SFloat FromMilli(int milli, int exponent)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(exponent, SmallestExponent);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(exponent, LargestExponent);
        long magnitude = Math.Abs((long)milli);
        long mantissa = Mantissas(magnitude, exponent);
        while (mantissa > LargestMantissa)
        {
            mantissa = Mantissas(magnitude, ++exponent);
        }

        return new SFloat((ushort)(((exponent & 0xF) << 12) | ((int)(milli < 0 ? -mantissa : mantissa) & 0xFFF)));
    }

    /// <summary>The value in thousandths, rounded; halves away from zero.</summary>
    /// <param name="milli">The value.</param>
    /// <returns>Whether it is a number and fits.</returns>
    public bool TryMilli(out int milli)
    {
        long magnitude = Math.Abs(Mantissa);
        for (int e = Exponent + 3; e > 0; e--)
        {
            magnitude *= 10;
        }

        magnitude = Exponent < -3 ? Divided(magnitude, -3 - Exponent) : magnitude;
        bool fits = !IsSpecial && magnitude <= int.MaxValue;
        milli = fits ? (int)(Mantissa < 0 ? -magnitude : magnitude) : 0;
        return fits;
    }

    private static long Mantissas(long magnitudeMilli, int exponent)
    {
        for (int e = exponent + 3; e < 0; e++)
        {
            magnitudeMilli *= 10;
        }

        return exponent > -3 ? Divided(magnitudeMilli, exponent + 3) : magnitudeMilli;
    }

    // By a power of ten, halves away from zero.
    private static long Divided(long magnitude, int power)
    {
        long by = 1;
        for (; power > 0; power--)
        {
            by *= 10;
        }

        return (magnitude + (by / 2)) / by;
    }
}
