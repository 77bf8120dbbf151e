// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Ratio of ratios of one pulse: the slope of red on infrared, with each product taken between neighbouring values.</summary>
/// <remarks>
/// <para>
/// A plain regression divides by the power of infrared with its own noise, so weak pulses read low ratios. White noise of one value has nothing in common with that of
/// the next one (they are sums of different samples), while the pulse has nearly all: with products x(n) x(n−1) and (x(n) y(n−1) + y(n) x(n−1)) / 2 the noise falls out
/// of the mean of both. (Regression with a lagged instrument: textbook; from memory.)
/// </para>
/// Input: values of 26 bits, levels of 29 bits.
/// Product: 52 bits.
/// Accumulator: 64 bits; twice 128 products: 60 bits. Levels: 36 bits.
/// Worst case: 128 values; more are refused by the owner.
/// Output: ratio in 1/10,000, rounded to nearest; two long divisions per pulse.
/// </remarks>
public struct ColourSums
{
    private long _cross;
    private long _infraredPower;
    private long _redPower;
    private long _redLevel;
    private long _infraredLevel;
    private int _redBefore;
    private int _infraredBefore;

    /// <summary>Values in the sums.</summary>
    public short Count { get; private set; }

    /// <summary>Mean sum of infrared light; divides, once per pulse.</summary>
    public readonly int InfraredLevel => Count == 0 || _infraredLevel <= 0 ? 0 : LongDivision.Rounded((ulong)_infraredLevel, (uint)Count);

    /// <summary>Power of infrared in the pulse band, in quarters of an octave; 0 when there is none.</summary>
    /// <param name="shift">The shift of the values: a coarser scale must not change the answer.</param>
    public readonly int Quarters(int shift)
    {
        if (_infraredPower <= 0 || Count == 0)
        {
            return 0;
        }

        // Bits count octaves, the two below the top one the quarters (linear in between: within a tenth of an octave).
        ulong mean = Wide.Divide((ulong)_infraredPower << 2, (uint)Count);
        int bits = Wide.Bits(mean);
        int below = bits < 3 ? 0 : (int)((mean >> (bits - 3)) & 3);
        return (4 * (bits + (2 * shift))) + below;
    }

    /// <summary>Begins a new pulse; the latest values stay as neighbours of the next.</summary>
    public void Clear()
    {
        _cross = 0;
        _infraredPower = 0;
        _redPower = 0;
        _redLevel = 0;
        _infraredLevel = 0;
        Count = 0;
    }

    /// <summary>Takes a pair.</summary>
    /// <param name="red">Red in the pulse band.</param>
    /// <param name="infrared">Infrared in the pulse band, same scale.</param>
    /// <param name="redSum">Red light.</param>
    /// <param name="infraredSum">Infrared light.</param>
    public void Add(int red, int infrared, int redSum, int infraredSum)
    {
        _cross += ((long)red * _infraredBefore) + ((long)infrared * _redBefore);
        _infraredPower += 2 * (long)infrared * _infraredBefore;
        _redPower += 2 * (long)red * _redBefore;
        _redLevel += redSum;
        _infraredLevel += infraredSum;
        _redBefore = red;
        _infraredBefore = infrared;
        Count++;
    }

    /// <summary>The ratio of the pulse.</summary>
    /// <param name="ratio">Receives the ratio [1/10,000].</param>
    /// <returns>Whether both colours beat together: their squared correlation is at least a half, and levels are above 0.</returns>
    public readonly bool TryRatio(out int ratio)
    {
        ratio = 0;
        if (_cross <= 0 || _infraredPower <= 0 || _redPower <= 0 || _redLevel <= 0 || _infraredLevel <= 0)
        {
            return false;
        }

        ulong cross = (ulong)_cross;
        ulong infrared = (ulong)_infraredPower;
        ulong red = (ulong)_redPower;
        int down = Above(cross | infrared | red, 30);
        ulong c = cross >> down;
        if (2 * c * c < (infrared >> down) * (red >> down))
        {
            return false;
        }

        // Slope in Q11.20, ratio of the levels in Q15.16.
        down = Above(infrared, 31);
        int up = 62 - Wide.Bits(cross >> down);
        up = up > 20 ? 20 : up < 0 ? 0 : up;
        ulong slope = (ulong)LongDivision.Rounded((cross >> down) << up, (uint)(infrared >> down)) << (20 - up);
        down = Above((ulong)_redLevel, 31);
        ulong levels = (ulong)LongDivision.Rounded(((ulong)_infraredLevel >> down) << 16, (uint)((ulong)_redLevel >> down));
        if (Wide.Bits(slope) + Wide.Bits(levels) > 49)
        {
            return false;
        }

        ulong scaled = ((slope * levels * 10_000) + (1UL << 35)) >> 36;
        ratio = scaled > ushort.MaxValue ? ushort.MaxValue : (int)scaled;
        return true;
    }

    private static int Above(ulong value, int bits)
    {
        int more = Wide.Bits(value) - bits;
        return more < 0 ? 0 : more;
    }
}
