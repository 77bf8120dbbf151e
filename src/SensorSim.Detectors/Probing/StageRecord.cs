// SPDX-License-Identifier: MIT
using System.Numerics;

namespace SensorSim.Detectors.Probing;

/// <summary>What was seen of one intermediate value.</summary>
public struct StageRecord
{
    private double _errorSum;
    private double _squareSum;

    /// <summary>Values seen.</summary>
    public long Count { get; private set; }

    /// <summary>Lowest value; 0 when none was seen.</summary>
    public int Lowest { get; private set; }

    /// <summary>Highest value; 0 when none was seen.</summary>
    public int Highest { get; private set; }

    /// <summary>Values at the rail or beyond it, or beyond the declared word.</summary>
    public long ClippedCount { get; private set; }

    /// <summary>Roundings seen.</summary>
    public long RoundedCount { get; private set; }

    /// <summary>Most bits dropped at once.</summary>
    public int DroppedBits { get; private set; }

    /// <summary>Bits that hold the lowest and the highest value, the sign counted.</summary>
    public readonly int UsedBits => Math.Max(Signed(Lowest), Signed(Highest));

    /// <summary>Mean rounding error [steps of the value that came out], −0.5 for a plain floor; NaN without a rounding.</summary>
    public readonly double RoundingMean => RoundedCount == 0 ? double.NaN : _errorSum / RoundedCount;

    /// <summary>Rounding noise: standard deviation of the error [steps of the value that came out]; NaN without a rounding.</summary>
    public readonly double RoundingNoise =>
        RoundedCount == 0 ? double.NaN : Math.Sqrt(Math.Max(0, (_squareSum / RoundedCount) - (RoundingMean * RoundingMean)));

    /// <summary>Largest magnitude.</summary>
    public readonly long Largest => Math.Max(-(long)Lowest, Highest);

    /// <summary>Room left: log2 of the declared word's largest magnitude over the largest one seen; negative beyond it. NaN when only zeros were seen.</summary>
    /// <param name="format">What was declared.</param>
    public readonly double HeadroomBits(in StageFormat format) =>
        Largest == 0 ? double.NaN : Math.Log2(((double)format.Highest + 1) / Largest);

    /// <summary>Takes a value.</summary>
    /// <param name="value">The value.</param>
    /// <param name="format">What was declared.</param>
    public void Add(int value, in StageFormat format)
    {
        Lowest = Count == 0 || value < Lowest ? value : Lowest;
        Highest = Count == 0 || value > Highest ? value : Highest;
        Count++;

        // The lowest word has no positive twin: compared as it is.
        bool isClipped = value >= format.Rail || value <= -format.Rail;
        ClippedCount += isClipped ? 1 : 0;
    }

    /// <summary>Takes a rounding.</summary>
    /// <param name="before">Exact value in units of 2^−bits steps.</param>
    /// <param name="after">What came out.</param>
    /// <param name="bits">Bits dropped.</param>
    public void AddRounding(int before, int after, int bits)
    {
        double error = after - Math.ScaleB(before, -bits);
        _errorSum += error;
        _squareSum += error * error;
        RoundedCount++;
        DroppedBits = Math.Max(DroppedBits, bits);
    }

    private static int Signed(int value) => 33 - BitOperations.LeadingZeroCount((uint)(value < 0 ? ~value : value));
}
