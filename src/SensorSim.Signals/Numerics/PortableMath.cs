// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

/// <summary>Elementary functions that give the same bits on every processor and operating system.</summary>
/// <remarks>
/// <para>
/// They stand on addition, subtraction, multiplication, division and square root, which IEEE 754 fixes to the last bit, on
/// bit casts and on tables of constants. No multiply-add is fused. The functions of <see cref="Math"/> differ between C
/// libraries and even between processors under one C library.
/// </para>
/// <para>
/// Error bounds are in units of the last place (ulp) of the result and are checked against a 60-digit reference by the
/// tests. Every NaN that comes out is <see cref="double.NaN"/> itself. Methods: argument reduction and table look-up as in
/// Muller, "Elementary Functions: Algorithms and Implementation", 3rd ed., 2016; double-double arithmetic by Dekker,
/// Numerische Mathematik 18:224-242, 1971. The constants are written by a script that stands with the tests.
/// </para>
/// </remarks>
public static partial class PortableMath
{
    /// <summary>Adding and subtracting this rounds to whole numbers (ties to even), which then stand in the lowest bits.</summary>
    private const double RoundingShift = 6755399441055744.0; // 1.5 × 2^52

    private const long SignBit = long.MinValue;
    private const long AbsMask = long.MaxValue;
    private const long InfinityBits = 0x7FF0_0000_0000_0000;

    /// <summary>The upper 26 bits of a significand: the product of two such halves is exact.</summary>
    private static double UpperHalf(double x) => FromBits(Bits(x) & ~0x7FF_FFFFL);

    private static long Bits(double x) => BitConverter.DoubleToInt64Bits(x);

    private static double FromBits(long bits) => BitConverter.Int64BitsToDouble(bits);

    private static bool IsNaN(double x) => (Bits(x) & AbsMask) > InfinityBits;
}
