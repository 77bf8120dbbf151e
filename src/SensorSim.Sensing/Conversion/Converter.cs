// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>From physical values to codes: round to even, clamp as double, unchecked cast.</summary>
/// <remarks>A sample whose rounded value lies outside the codes is clamped and flagged <see cref="SampleStatus.OverRange"/>.</remarks>
public readonly struct Converter
{
    // Adding and subtracting 1.5 × 2^52 rounds to whole numbers (ties to even), which then stand in the lowest bits.
    private const double RoundingShift = 6755399441055744.0;

    private static readonly Vector256<int> s_lowHalves = Vector256.Create(0, 2, 4, 6, 0, 2, 4, 6);

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
        int i = 0;
        var shift = Vector256.Create(RoundingShift);
        var scale = Vector256.Create(_codesPerUnit);
        var zero = Vector256.Create(_zeroCode);
        var minimum = Vector256.Create(_minimum);
        var maximum = Vector256.Create(_maximum);
        for (; i + Vector256<double>.Count <= values.Length; i += Vector256<double>.Count)
        {
            // Far out of range the shift rounds to coarser numbers, which are clamped all the same.
            Vector256<double> rounded = (((Vector256.Create(values[i..]) * scale) + shift) - shift) + zero;
            Vector256<double> clamped = Vector256.Min(Vector256.Max(rounded, minimum), maximum);
            Vector256<int> parts = (clamped + shift).AsInt32();
            Vector256.Shuffle(parts, s_lowHalves).GetLower().CopyTo(codes[i..]);
            if (rounded != clamped)
            {
                for (int lane = 0; lane < Vector256<double>.Count; lane++)
                {
                    status[i + lane] |= (ushort)(rounded.GetElement(lane) != clamped.GetElement(lane) ? SampleStatus.OverRange : 0);
                }
            }
        }

        for (; i < values.Length; i++)
        {
            double rounded = Math.Round(values[i] * _codesPerUnit) + _zeroCode;
            double clamped = Math.Min(Math.Max(rounded, _minimum), _maximum);
            codes[i] = unchecked((int)clamped);
            if (rounded != clamped)
            {
                status[i] |= (ushort)SampleStatus.OverRange;
            }
        }
    }
}
