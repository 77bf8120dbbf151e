// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>First stage: two moving sums, then a second difference. Symmetric, so every frequency is delayed alike.</summary>
/// <remarks>
/// Input: codes of up to 24 bits, or sums of two.
/// Product: none.
/// Accumulator: 32 bits; sums of the sums kept below 2^29.5 by a shift chosen at start-up, see <see cref="BeatWindows"/>.
/// Worst case: full-scale swing in step with the arms, 2^31.
/// Output: 32 bits, gain (first × second sum) / 2^shift × 4 sin²(π f arm); floor at the shift.
/// </remarks>
public partial struct BandPass
{
    private BandSum _first;
    private BandSum _second;
    private Word16 _held;
    private BandSums _sums;
    private int _shift;
    private int _arm;

    /// <summary>What changes with every sample beside what is held; for whoever keeps it at hand over a run.</summary>
    public BandSums Sums
    {
        readonly get => _sums;
        set => _sums = value;
    }

    /// <summary>Behaves as if a constant had always come in: the output starts at 0.</summary>
    /// <param name="windows">Lengths.</param>
    /// <param name="value">The constant.</param>
    public void Restart(in BeatWindows windows, int value)
    {
        _shift = windows.SumShift;
        _arm = windows.Arm;
        _first.Restart(windows.FirstSum, value);
        _sums.First = unchecked(windows.FirstSum * value);
        int smoothed = Shift.Floor(_sums.First, _shift);
        _second.Restart(windows.SecondSum, smoothed);
        _sums.Second = unchecked(smoothed * windows.SecondSum);
        for (int i = 0; i < Word16.Length; i++)
        {
            _held[i] = _sums.Second;
        }
    }

    /// <summary>Takes the next sample.</summary>
    /// <param name="value">The sample.</param>
    /// <returns>Band-passed value.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next(int value)
    {
        NoProbe probe = default;
        return Next(value, ref probe);
    }

    /// <summary>Takes the next sample.</summary>
    /// <param name="value">The sample.</param>
    /// <param name="probe">Sees both sums and what the shift between them drops.</param>
    /// <returns>Band-passed value.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next<TProbe>(int value, ref TProbe probe)
        where TProbe : struct, IProbe => Next(ref _sums, value, ref probe);

    /// <summary>Takes the next sample, with the sums at hand.</summary>
    /// <param name="sums">The sums.</param>
    /// <param name="value">The sample.</param>
    /// <param name="probe">Sees both sums and what the shift between them drops.</param>
    /// <returns>Band-passed value.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next<TProbe>(ref BandSums sums, int value, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        unchecked
        {
            int at = sums.At;
            int first = sums.First + _first.Change(at, value);
            int shifted = Shift.Floor(first, _shift);
            probe.Round(ProbePoint.EcgFirstSum, first, shifted, _shift);
            probe.See(ProbePoint.EcgFirstSum, shifted);
            int second = sums.Second + _second.Change(at, shifted);
            probe.See(ProbePoint.EcgSecondSum, second);
            _held[at & (Word16.Length - 1)] = second;
            int middle = _held[(at - _arm) & (Word16.Length - 1)];
            int oldest = _held[(at - (2 * _arm)) & (Word16.Length - 1)];
            sums.At = at + 1;
            sums.First = first;
            sums.Second = second;
            return second - middle - (middle - oldest);
        }
    }
}
