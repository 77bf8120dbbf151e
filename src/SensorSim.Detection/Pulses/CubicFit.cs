// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Slope and level in the middle of the least-squares cubic through 2m + 1 samples, as fixed weights.</summary>
/// <remarks>
/// Input: differences of samples, brought to 15 bits by the caller's shift.
/// Product: 15 bits × Q2.14.
/// Accumulator: 32 bits; magnitudes of the weights sum to less than 2^15, so 2^30 is not passed.
/// Worst case: all differences at the rail with the signs of the weights, below 2^30.
/// Output: value × 2^14; a straight line's slope per working sample and a constant come out with gain 2^14.
/// </remarks>
public partial struct CubicFit
{
    /// <summary>Fraction bits of the weights.</summary>
    public const int WeightBits = 14;

    /// <summary>Bits the differences may have.</summary>
    public const int InputBits = 15;

    private const int Mask = Word256.Length - 1;
    private Weights16 _slope;
    private Weights16 _level;
    private int _arm;

    /// <summary>Half-width m [working samples].</summary>
    public readonly int Arm => _arm;

    /// <summary>Computes the weights. Wide integers and divisions, at start-up only.</summary>
    /// <param name="arm">Half-width m, 2 to 15 working samples.</param>
    public void Restart(int arm)
    {
        _arm = arm;
        long n = (2 * arm) + 1;
        long s2 = 0;
        long s4 = 0;
        long s6 = 0;
        for (long k = 1; k <= arm; k++)
        {
            s2 += 2 * k * k;
            s4 += 2 * k * k * k * k;
            s6 += 2 * k * k * k * k * k * k;
        }

        // Normal equations of the odd part (k, k³) and the even part (1, k²), solved in closed form.
        long odd = (s2 * s6) - (s4 * s4);
        long even = (n * s4) - (s2 * s2);
        for (long k = 0; k <= arm; k++)
        {
            _slope[(int)k] = Rounded((s6 * k) - (s4 * k * k * k), odd);
            _level[(int)k] = Rounded(s4 - (s2 * k * k), even);
        }
    }

    /// <summary>Slope of the fit × 2^14, per working sample.</summary>
    /// <param name="held">The latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="at">Place of the middle.</param>
    /// <param name="shift">Right shift that brings differences within the fit to 15 bits.</param>
    public readonly int Slope(in Word256 held, int at, int shift)
    {
        int sum = 0;
        for (int k = 1; k <= _arm; k++)
        {
            sum += _slope[k & (Weights16.Length - 1)] * Clipped(held[(at + k) & Mask] - held[(at - k) & Mask], shift);
        }

        return sum;
    }

    /// <summary>Level of the fit above a reference × 2^14.</summary>
    /// <param name="held">The latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="at">Place of the middle.</param>
    /// <param name="reference">The reference, in the samples' own unit.</param>
    /// <param name="shift">Right shift that brings differences from the reference to 15 bits.</param>
    public readonly int Level(in Word256 held, int at, int reference, int shift)
    {
        int sum = _level[0] * Clipped(held[at & Mask] - reference, shift);
        for (int k = 1; k <= _arm; k++)
        {
            int pair = Clipped(held[(at + k) & Mask] - reference, shift) + Clipped(held[(at - k) & Mask] - reference, shift);
            sum += _level[k & (Weights16.Length - 1)] * pair;
        }

        return sum;
    }

    // What lies outside of the stretch that the shift was found for may be larger: it clips.
    private static int Clipped(int difference, int shift) => Sat.Narrow(Shift.RoundWithRoom(difference, shift), short.MaxValue);

    private static short Rounded(long numerator, long denominator)
    {
        long scaled = numerator << WeightBits;
        long half = denominator >> 1;
        return (short)((scaled >= 0 ? scaled + half : scaled - half) / denominator);
    }

    // Below 2^15, as their magnitudes' sum is.
    [InlineArray(Length)]
    private struct Weights16
    {
        public const int Length = 16;
        private short _first;
    }
}
