// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>First stage: slope of the straight line through the latest 2m + 1 samples, by running sums.</summary>
/// <remarks>
/// Input: sums of up to five 24-bit codes, 27 bits.
/// Product: sample × m, m up to 12; exact modulo 2^32 like the sums.
/// Accumulator: 32 bits; exact modulo 2^32, and the true value stays within 2^24 × 112 (times decimation, at 499 Hz).
/// Worst case: a full-scale step in the middle, below 2^31.
/// Output: Σ k x(k), the slope × Σ k²; exact, delay m working samples.
/// </remarks>
public partial struct WatchSlope
{
    private int _arm;
    private int _sum;
    private int _weighted;

    /// <summary>The latest slope × Σ k².</summary>
    public readonly int Weighted => _weighted;

    /// <summary>Behaves as if a constant had always come in.</summary>
    /// <param name="arm">Half-width m.</param>
    /// <param name="value">The constant.</param>
    public void Restart(int arm, int value)
    {
        _arm = arm;
        _sum = ((2 * arm) + 1) * value;
        _weighted = 0;
    }

    /// <summary>Behaves as if everything that came in had been higher.</summary>
    /// <param name="by">By how much.</param>
    public void Raise(int by) => _sum = unchecked(_sum + (((2 * _arm) + 1) * by));

    /// <summary>Takes the next sample.</summary>
    /// <param name="value">The sample.</param>
    /// <param name="leaving">The sample that came 2m + 1 before it.</param>
    /// <returns>Slope × Σ k².</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next(int value, int leaving)
    {
        unchecked
        {
            _weighted += (_arm * value) + ((_arm + 1) * leaving) - _sum;
            _sum += value - leaving;
            return _weighted;
        }
    }
}
