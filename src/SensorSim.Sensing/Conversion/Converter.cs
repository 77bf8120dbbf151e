// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>From physical values to codes: round to even, clamp as double, unchecked cast.</summary>
/// <remarks>A sample whose rounded value lies outside the codes is clamped and flagged <see cref="SampleStatus.OverRange"/>.</remarks>
public readonly struct Converter
{
    // Adding and subtracting 1.5 × 2^52 rounds to whole numbers (ties to even), which then stand in the lowest bits.
    private const double RoundingShift = 6755399441055744.0;

    private readonly double _codesPerUnit;
    private readonly double _zeroCode;
    private readonly double _minimum;
    private readonly double _maximum;

    /// <summary>Creates the converter of a channel; its polarity must be +1.</summary>
    /// <param name="format">The channel.</param>
    public Converter(ChannelFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        if (format.Polarity != 1)
        {
            throw new ArgumentException("Only channels of polarity +1 are made here.", nameof(format));
        }

        _codesPerUnit = 1 / format.UnitPerCode;
        _zeroCode = format.ZeroCode;
        _minimum = format.MinimumCode;
        _maximum = format.MaximumCode;
    }

    /// <summary>Converts samples.</summary>
    /// <param name="values">Physical values [unit of the channel]; never NaN.</param>
    /// <param name="codes">Receives the codes.</param>
    /// <param name="status">Receives the flag, added to what is there.</param>
    public void Convert(ReadOnlySpan<double> values, Span<int> codes, Span<ushort> status)
    {
        codes = codes[..values.Length];
        status = status[..values.Length];
        ref double from = ref MemoryMarshal.GetReference(values);
        ref int to = ref MemoryMarshal.GetReference(codes);
        var lowest = Vector256.Create(RoundingShift + (_minimum - _zeroCode));
        var highest = Vector256.Create(RoundingShift + (_maximum - _zeroCode));
        var zeroCode = Vector128.Create((int)_zeroCode);
        var codesPerUnit = Vector256.Create(_codesPerUnit);
        int i = 0;
        for (; i + Vector256<double>.Count <= values.Length; i += Vector256<double>.Count)
        {
            Vector256<double> shifted = (Vector256.LoadUnsafe(ref from, (nuint)i) * codesPerUnit) + Vector256.Create(RoundingShift);
            Vector256<double> isOutside = Vector256.LessThan(shifted, lowest) | Vector256.GreaterThan(shifted, highest);
            uint outside = isOutside.ExtractMostSignificantBits();
            if (outside != 0)
            {
                // No call in here: for it all would be kept in memory that stands in registers.
                Vector256<double> end = Vector256.ConditionalSelect(Vector256.LessThan(shifted, lowest), lowest, highest);
                shifted = Vector256.ConditionalSelect(isOutside, end, shifted);
                for (; outside != 0; outside &= outside - 1)
                {
                    status[i + BitOperations.TrailingZeroCount(outside)] |= (ushort)SampleStatus.OverRange;
                }
            }

            Vector256<int> parts = Vector256.Shuffle(shifted.AsInt32(), Vector256.Create(0, 2, 4, 6, 0, 2, 4, 6));
            (parts.GetLower() + zeroCode).StoreUnsafe(ref to, (nuint)i);
        }

        for (; i < values.Length; i++)
        {
            double rounded = Math.Round(values[i] * _codesPerUnit) + _zeroCode;
            double clamped = Math.Min(Math.Max(rounded, _minimum), _maximum);
            codes[i] = unchecked((int)clamped);
            status[i] |= (ushort)(rounded != clamped ? SampleStatus.OverRange : 0);
        }
    }
}
