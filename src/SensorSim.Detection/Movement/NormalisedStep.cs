// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>The arithmetic of normalised LMS: y = Σ w u, then w += μ e u / 2^b.</summary>
/// <remarks>
/// <para>2^b is the power of two next above the power of u, so the effective step lies within [μ/2, μ] of normalised LMS (Haykin, Adaptive Filter
/// Theory; from memory). Stable for μ below 2; misadjustment μ / (2 − μ).</para>
/// Input: weights Q11.20 in 32 bits, functions 21 bits, error 25 bits.
/// Product: weight × function 51 bits; error × function 46 bits.
/// Accumulator: 64 bits; twelve products 55 bits.
/// Worst case: weights clip at ±2^30.
/// Output: the estimate in the error's format, rounded to nearest, clipped at ±2^24; weights rounded to nearest.
/// </remarks>
public static partial class NormalisedStep
{
    /// <summary>Bits of a weight behind the point.</summary>
    public const int WeightBits = 20;

    /// <summary>Largest magnitude of a weight.</summary>
    public const int WeightRail = 1 << 30;

    /// <summary>Largest magnitude of an estimate.</summary>
    public const int EstimateRail = (1 << 24) - 1;

    /// <summary>What the functions make with the weights.</summary>
    /// <param name="weights">Weights.</param>
    /// <param name="functions">Functions.</param>
    public static int Estimate(in Word12 weights, in Word12 functions)
    {
        if (Avx2.IsSupported)
        {
            return EstimateLanes(weights, functions);
        }

        ReadOnlySpan<int> w = weights;
        ReadOnlySpan<int> u = functions;
        long sum = 0;
        for (int i = 0; i < w.Length && i < u.Length; i++)
        {
            sum += (long)w[i] * u[i];
        }

        return Wide.Narrow(Wide.Round(sum, WeightBits), EstimateRail);
    }

    /// <summary>Moves some of the weights.</summary>
    /// <param name="weights">Weights.</param>
    /// <param name="functions">Functions.</param>
    /// <param name="first">First of those that move.</param>
    /// <param name="count">How many.</param>
    /// <param name="error">What is left of the input.</param>
    /// <param name="powerBits">b: the power of these functions lies below 2^b.</param>
    /// <param name="stepShift">μ = 2^−stepShift.</param>
    public static void Learn(ref Word12 weights, in Word12 functions, int first, int count, int error, int powerBits, int stepShift)
    {
        int shift = powerBits + stepShift - WeightBits;
        shift = shift < 0 ? 0 : shift;
        Span<int> w = ((Span<int>)weights).Slice(first, count);
        ReadOnlySpan<int> u = ((ReadOnlySpan<int>)functions).Slice(first, count);
        if (Avx2.IsSupported && TryLearnLanes(w, u, error, shift))
        {
            return;
        }

        long half = (1L << shift) >> 1;
        for (int i = 0; i < w.Length && i < u.Length; i++)
        {
            w[i] = Wide.Narrow(w[i] + ((((long)error * u[i]) + half) >> shift), WeightRail);
        }
    }

    /// <summary>Takes a part off every weight.</summary>
    /// <param name="weights">Weights.</param>
    /// <param name="bits">The part is 2^−bits.</param>
    public static void Shrink(ref Word12 weights, int bits)
    {
        for (int i = 0; i < Word12.Length; i++)
        {
            weights[i] -= Shift.Round(weights[i], bits);
        }
    }
}
