// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>From physical values to codes: round to even, clamp as double, unchecked cast.</summary>
/// <remarks>A sample whose rounded value lies outside the codes is clamped and flagged <see cref="SampleStatus.OverRange"/>.</remarks>
public readonly struct Converter
{
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
        for (int i = 0; i < values.Length; i++)
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
