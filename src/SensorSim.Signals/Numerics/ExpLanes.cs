// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Signals.Numerics;

/// <summary>Four exponentials at once in 256-bit lanes, without a table: for models that need many, and not the last bit of each.</summary>
/// <remarks>
/// x = k ln 2 + r with whole k and |r| at most ln 2 / 2; e^r by its Taylor polynomial of degree 12, whose remainder is below 1.8e-16;
/// 2^k goes into the exponent field. Only +, −, × and integer operations: the same bits with any vector unit and with none.
/// <see cref="PortableMath.Exp"/> is nearer to the true value, but differs from this in the last bits: one model uses one of them.
/// </remarks>
public static class ExpLanes
{
    // Adding and subtracting 1.5 × 2^52 rounds to whole numbers (ties to even), which then stand in the lowest bits.
    private const double RoundingShift = 6755399441055744.0;
    private const double OneOverLn2 = 1.4426950408889634;

    // ln 2: a multiple of 2^-42, so that a whole number below 2^11 times it is exact; and the rest.
    private const double Ln2Hi = 0.6931471805598903;
    private const double Ln2Lo = 5.497923018708371E-14;

    /// <summary>e^x in each lane.</summary>
    /// <param name="x">Exponents from −700 to 700; beyond, the results mean nothing.</param>
    /// <returns>e^x with a relative error below 4e-16.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Exp(Vector256<double> x)
    {
        var shift = Vector256.Create(RoundingShift);
        Vector256<double> shifted = (x * Vector256.Create(OneOverLn2)) + shift;
        Vector256<double> k = shifted - shift;
        Vector256<double> r = (x - (k * Vector256.Create(Ln2Hi))) - (k * Vector256.Create(Ln2Lo));

        // Pairs, then pairs of pairs: the terms do not wait for each other.
        Vector256<double> r2 = r * r;
        Vector256<double> r4 = r2 * r2;
        Vector256<double> c2 = Vector256.Create(1.0 / 2) + (r * Vector256.Create(1.0 / 6));
        Vector256<double> c4 = Vector256.Create(1.0 / 24) + (r * Vector256.Create(1.0 / 120));
        Vector256<double> c6 = Vector256.Create(1.0 / 720) + (r * Vector256.Create(1.0 / 5040));
        Vector256<double> c8 = Vector256.Create(1.0 / 40320) + (r * Vector256.Create(1.0 / 362880));
        Vector256<double> c10 = Vector256.Create(1.0 / 3628800) + (r * Vector256.Create(1.0 / 39916800));
        Vector256<double> low = c2 + (r2 * c4);
        Vector256<double> middle = c6 + (r2 * c8);
        Vector256<double> high = c10 + (r2 * Vector256.Create(1.0 / 479001600));
        Vector256<double> polynomial = low + (r4 * (middle + (r4 * high)));
        Vector256<double> significand = Vector256<double>.One + (r + (r2 * polynomial));

        // The lowest bits of the shifted number are k; what stands above them leaves on the left.
        return (significand.AsInt64() + (shifted.AsInt64() << 52)).AsDouble();
    }
}
