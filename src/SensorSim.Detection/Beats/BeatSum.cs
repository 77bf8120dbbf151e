// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Beats;

/// <summary>Sum of the latest samples, as the moving sum of the fixed-point room, with room for 100 ms: what the energy needs.</summary>
/// <remarks>
/// Input: 32 bits, any format; only the true sum has to fit, for the running sum is exact modulo 2^32.
/// Product: none.
/// Accumulator: 32 bits; input bits + log2(length) ≤ 32.
/// Worst case: length × largest input; zero-frequency gain is the length.
/// Output: exact, no rounding; delay (length − 1) / 2 samples, zeros at multiples of rate / length.
/// </remarks>
public struct BeatSum
{
    private Word32 _held;
    private int _at;
    private int _sum;
    private int _length;

    /// <summary>Sets the length and behaves as if a constant had always come in.</summary>
    /// <param name="length">1 to 32 samples.</param>
    /// <param name="value">The constant.</param>
    public void Restart(int length, int value)
    {
        _length = length;
        _at = 0;
        _sum = unchecked(length * value);
        for (int i = 0; i < Word32.Length; i++)
        {
            _held[i] = value;
        }
    }

    /// <summary>Takes the next sample.</summary>
    /// <param name="value">The sample.</param>
    /// <returns>The sum that includes it.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next(int value)
    {
        unchecked
        {
            int at = _at;
            int sum = _sum + value - _held[(at - _length) & (Word32.Length - 1)];
            _held[at & (Word32.Length - 1)] = value;
            _at = at + 1;
            _sum = sum;
            return sum;
        }
    }
}
