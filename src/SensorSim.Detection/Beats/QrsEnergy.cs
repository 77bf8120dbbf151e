// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Second stage: magnitude of the band-passed signal, integrated over 100 ms. One hump for each QRS complex.</summary>
/// <remarks>
/// Input: 32 bits of band-pass.
/// Product: none (magnitude instead of square: half the bits, and a tall beat hides its small neighbour less).
/// Accumulator: 32 bits; magnitudes clipped at 2^25 − 1, at most 26 of them.
/// Worst case: 26 × 2^25 below 2^30; clipping starts above 0.3 V at 1 µV a code.
/// Output: 31 bits, exact sum, delay (length − 1) / 2.
/// </remarks>
public partial struct QrsEnergy
{
    private const int Ceiling = (1 << 25) - 1;
    private BeatSum _held;
    private EnergySum _sum;

    /// <summary>What changes with every sample beside what is held; for whoever keeps it at hand over a run.</summary>
    public EnergySum Sum
    {
        readonly get => _sum;
        set => _sum = value;
    }

    /// <summary>Starts from silence.</summary>
    /// <param name="windows">Lengths.</param>
    public void Restart(in BeatWindows windows)
    {
        _held.Restart(windows.Integration, 0);
        _sum.Value = 0;
    }

    /// <summary>Takes the next band-passed value.</summary>
    /// <param name="value">The value.</param>
    /// <returns>Integrated magnitude.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next(int value) => Next(ref _sum, value);

    /// <summary>Takes the next band-passed value, with the sum at hand.</summary>
    /// <param name="sum">The sum.</param>
    /// <param name="value">The value.</param>
    /// <returns>Integrated magnitude.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next(ref EnergySum sum, int value)
    {
        unchecked
        {
            int now = sum.Value + _held.Change(sum.At, Magnitude(value));
            sum.At++;
            sum.Value = now;
            return now;
        }
    }

    // Without a jump on the sign, which cannot be predicted. Unsigned comparison: the lowest word, whose magnitude does not fit, clips as well.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Magnitude(int value)
    {
        int sign = Shift.Floor(value, 31);
        int magnitude = unchecked((value ^ sign) - sign);
        return (uint)magnitude > Ceiling ? Ceiling : magnitude;
    }
}
