// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>What a sum of the latest samples changes by, with room for 100 ms: what the energy needs.</summary>
/// <remarks>
/// Input: 32 bits, any format; only the true sum has to fit, for the running sum, which the owner keeps, is exact modulo 2^32.
/// Product: none.
/// Accumulator: 32 bits; input bits + log2(length) ≤ 32.
/// Worst case: length × largest input; zero-frequency gain is the length.
/// Output: exact, no rounding; delay (length − 1) / 2 samples, zeros at multiples of rate / length.
/// </remarks>
public partial struct BeatSum
{
    private Word32 _held;
    private int _length;

    /// <summary>Sets the length and behaves as if a constant had always come in.</summary>
    /// <param name="length">1 to 32 samples.</param>
    /// <param name="value">The constant.</param>
    public void Restart(int length, int value)
    {
        _length = length;
        for (int i = 0; i < Word32.Length; i++)
        {
            _held[i] = value;
        }
    }

    /// <summary>Takes the next sample.</summary>
    /// <param name="at">How many came before it, modulo 2^32.</param>
    /// <param name="value">The sample.</param>
    /// <returns>By how much the sum changes.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Change(int at, int value)
    {
        unchecked
        {
            int change = value - _held[(at - _length) & (Word32.Length - 1)];
            _held[at & (Word32.Length - 1)] = value;
            return change;
        }
    }
}
