// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

/// <summary>Sum of the latest samples: the plainest linear-phase low-pass, one addition and one subtraction a sample.</summary>
/// <remarks>
/// Input: 32 bits, any format; only the true sum has to fit, for the running sum is exact modulo 2^32.
/// Product: none.
/// Accumulator: 32 bits; input bits + log2(length) ≤ 32.
/// Worst case: length × largest input; zero-frequency gain is the length.
/// Output: exact, no rounding; delay (length − 1) / 2 samples, zeros at multiples of rate / length.
/// </remarks>
public struct MovingSum
{
    /// <summary>Longest sum [samples].</summary>
    public const int MaximumLength = Word64.Length;

    private Word64 _held;
    private int _at;
    private int _sum;

    /// <summary>Samples in the sum.</summary>
    public int Length { get; private set; }

    /// <summary>Sets the length and behaves as if a constant had always come in.</summary>
    /// <param name="length">1 to <see cref="MaximumLength"/> samples.</param>
    /// <param name="value">The constant.</param>
    public void Restart(int length, int value)
    {
        Length = length;
        _at = 0;
        _sum = 0;
        for (int i = 0; i < length; i++)
        {
            _held[i] = value;
            _sum = unchecked(_sum + value);
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
            ref int slot = ref _held[at & (Word64.Length - 1)];
            _sum += value - slot;
            slot = value;
            at++;
            _at = at == Length ? 0 : at;
            return _sum;
        }
    }
}
