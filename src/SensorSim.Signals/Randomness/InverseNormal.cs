// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace SensorSim.Signals.Randomness;

/// <summary>Turns 32 random bits into a standard normal number: the one recipe for normal draws.</summary>
/// <remarks>
/// The word w stands for the probability (w + ½) / 2^32; the result is the quantile of the standard normal distribution
/// there, by a table of cubics (see <see cref="Table"/>), with an absolute error below 5e-11. A word and its complement
/// give exactly opposite numbers; the magnitude reaches 6.3384 (probability 2^-33).
/// </remarks>
public static class InverseNormal
{
    /// <summary>Coefficients of the cubics: constant, linear, quadratic, cubic, for each of 2048 segments.</summary>
    /// <remarks>
    /// x = 2 × (the lower 31 bits of the word, inverted if its top bit is set) + 1 = 2^e (1 + s/64 + t) with t from 0 to 1/64; the
    /// segment is e × 64 + s, the cubic's variable is t. Built from Wichura's AS 241 (Applied Statistics 37:477-484, 1988).
    /// </remarks>
    public static ReadOnlySpan<double> Table => NormalTable.Once;

    /// <summary>Standard normal number from a word.</summary>
    /// <param name="word">32 random bits.</param>
    public static double FromWord(uint word)
    {
        unchecked
        {
            // No branch depends on the bits: they are random, a branch would be mispredicted every second time.
            uint x = ((word ^ (uint)((int)word >> 31)) << 1) | 1;
            long bits = BitConverter.DoubleToInt64Bits(x);
            int row = (int)((bits >> NormalLanes.RowShift) - NormalLanes.FirstRow);
            double t = BitConverter.Int64BitsToDouble((bits & NormalLanes.FractionMask) | NormalLanes.OneBits) - 1;

            // x is at least 1 and below 2^32, so the row is 0 to 2047: no bounds to check.
            ref double c = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(NormalTable.Coefficients), row * 4);
            double cubic = c + (t * (Unsafe.Add(ref c, 1) + (t * (Unsafe.Add(ref c, 2) + (t * Unsafe.Add(ref c, 3))))));
            return BitConverter.Int64BitsToDouble(BitConverter.DoubleToInt64Bits(cubic) ^ ((long)(~word & 0x8000_0000) << 32));
        }
    }
}
