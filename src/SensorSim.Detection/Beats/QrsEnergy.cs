// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Beats;

/// <summary>Second stage: magnitude of the band-passed signal, integrated over 100 ms. One hump for each QRS complex.</summary>
/// <remarks>
/// Input: 32 bits of band-pass.
/// Product: none (magnitude instead of square: half the bits, and a tall beat hides its small neighbour less).
/// Accumulator: 32 bits; magnitudes clipped at 2^25 − 1, at most 26 of them.
/// Worst case: 26 × 2^25 below 2^30; clipping starts above 0.3 V at 1 µV a code.
/// Output: 31 bits, exact sum, delay (length − 1) / 2.
/// </remarks>
public struct QrsEnergy
{
    private const int Ceiling = (1 << 25) - 1;
    private BeatSum _sum;

    /// <summary>Starts from silence.</summary>
    /// <param name="windows">Lengths.</param>
    public void Restart(in BeatWindows windows) => _sum.Restart(windows.Integration, 0);

    /// <summary>Takes the next band-passed value.</summary>
    /// <param name="value">The value.</param>
    /// <returns>Integrated magnitude.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next(int value)
    {
        int magnitude = value < 0 ? unchecked(-value) : value;

        // Unsigned comparison: the lowest word, whose magnitude does not fit, clips as well.
        return _sum.Next((uint)magnitude > Ceiling ? Ceiling : magnitude);
    }
}
