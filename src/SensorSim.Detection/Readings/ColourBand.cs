// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>One colour's pulse band for the ratio of ratios: two first-order high-passes on sums of samples at about 25 Hz.</summary>
/// <remarks>
/// Input: sums of up to 20 codes of 24 bits, 29 bits.
/// Product: none.
/// Accumulator: 64 bits, Q.8 of the sums; 37 bits used.
/// Worst case: full swing from sample to sample, 39 bits; the output clips at 25 bits.
/// Output: Q.8 of the sums less a shift, rounded to nearest. −3 dB each at rate / (2π · 7.5), 0.5 Hz at 25 Hz; the sums make zeros at 25 Hz.
/// Both colours pass the same filter, so what it does to the shape of the pulse cancels in the ratio.
/// </remarks>
public struct ColourBand
{
    private const int Fraction = 8;
    private const int Corner = 3;
    private const int Limit = (1 << 25) - 1;
    private long _slow;
    private long _slower;

    /// <summary>Behaves as if a constant had always come in.</summary>
    /// <param name="sum">The constant.</param>
    public void Restart(int sum)
    {
        _slow = (long)sum << Fraction;
        _slower = 0;
    }

    /// <summary>Takes the next sum.</summary>
    /// <param name="sum">The sum.</param>
    /// <param name="shift">How much coarser the output is.</param>
    /// <returns>The pulse.</returns>
    public int Next(int sum, int shift)
    {
        long once = ((long)sum << Fraction) - _slow;
        _slow += Wide.Floor(once, Corner);
        long twice = once - _slower;
        _slower += Wide.Floor(twice, Corner);
        long scaled = shift == 0 ? twice : Wide.Floor(twice + (1L << (shift - 1)), shift);
        return scaled > Limit ? Limit : scaled < -Limit ? -Limit : (int)scaled;
    }
}
