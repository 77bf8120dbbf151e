// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Control;

/// <summary>Mean level of one optical channel over each second of its own samples, with what the status words say.</summary>
/// <remarks>
/// Input: codes of up to 24 bits, less the code of no light, brought to 16 bits by a shift.
/// Product: none.
/// Accumulator: 32 bits; at most 2,000 samples of 17 bits a second: below 2^28.
/// Worst case: rates above 2,000 Hz are refused.
/// Output: mean in codes above no light, 16 bits, floor; one division a second.
/// </remarks>
public struct SecondMean
{
    /// <summary>Highest rate [Hz].</summary>
    public const int MostRateHz = 2_000;

    private int _zero;
    private int _sum;
    private int _second;
    private byte _shift;

    /// <summary>Sampling rate [Hz]; 0 when the channel is not there.</summary>
    public ushort RateHz { get; private set; }

    /// <summary>Samples so far in the present second.</summary>
    public ushort Count { get; private set; }

    /// <summary>The highest code above that of no light, 16 bits.</summary>
    public ushort Room { get; private set; }

    /// <summary>Number of the settings, as the last sample had it.</summary>
    public byte Number { get; private set; }

    /// <summary>Whether the number changed within the second: its mean stands for neither.</summary>
    public bool IsMixed { get; private set; }

    /// <summary>Whether a sample of the second was clipped.</summary>
    public bool IsClipped { get; private set; }

    /// <summary>Whether the channel is there.</summary>
    public readonly bool IsThere => RateHz > 0;

    /// <summary>Starts anew.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 1 to <see cref="MostRateHz"/>.</param>
    /// <param name="zeroCode">The code of no light.</param>
    /// <param name="maximumCode">The highest code, above that.</param>
    /// <returns>Whether the channel can be watched.</returns>
    public bool Start(int rateHz, int zeroCode, int maximumCode)
    {
        this = default;
        if (rateHz < 1 || rateHz > MostRateHz || maximumCode <= zeroCode)
        {
            return false;
        }

        _shift = (byte)Shift.Needed(maximumCode - zeroCode, 16);
        _zero = zeroCode;
        RateHz = (ushort)rateHz;
        Room = (ushort)Shift.Floor(maximumCode - zeroCode, _shift);
        return true;
    }

    /// <summary>Whether a sample lies after the present second.</summary>
    /// <param name="index">Index of the sample.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly bool IsOver(long index) => index >= (_second + 1L) * RateHz;

    /// <summary>Whether the second that holds a sample of a channel of this rate is later than that of this one's latest sample. Divides.</summary>
    /// <param name="index">Index of the sample.</param>
    /// <param name="rateHz">Rate of its channel [Hz].</param>
    public readonly bool IsBefore(long index, int rateHz) => _second < index / rateHz;

    /// <summary>Takes a sample of the present second.</summary>
    /// <param name="code">Its code.</param>
    /// <param name="status">Its status word.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Take(int code, ushort status)
    {
        byte number = (byte)Shift.Floor(status, SampleFlags.SettingsShift);
        IsMixed |= Count > 0 && number != Number;
        IsClipped |= (status & SampleFlags.Clipped) != 0;
        Number = number;
        _sum += Shift.Floor(code - _zero, _shift);
        Count++;
    }

    /// <summary>Mean level; only when there are samples. Divides.</summary>
    public readonly int MeanOfClosed() => _sum / Count;

    /// <summary>Begins the second that holds a sample. Divides.</summary>
    /// <param name="index">Index of the sample.</param>
    public void Begin(long index)
    {
        _second = (int)(index / RateHz);
        _sum = 0;
        Count = 0;
        IsClipped = false;
        IsMixed = false;
    }
}
