// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Bluetooth;

/// <summary>PLX Spot-check Measurement, characteristic 2A5E of the Bluetooth Pulse Oximeter Service.</summary>
/// <param name="SaturationPercent">Oxygen saturation [%].</param>
/// <param name="PulseRateBpm">Pulse rate [bpm].</param>
public readonly record struct OximeterSpotCheck(SFloat SaturationPercent, SFloat PulseRateBpm)
{
    /// <summary>Most bytes of a value.</summary>
    public const int MaximumBytes = 19;

    private const int HasTime = 1;
    private const int HasStatus = 2;
    private const int HasDeviceStatus = 4;
    private const int HasAmplitude = 8;
    private const int ClockUnset = 16;

    /// <summary>When it was measured; null: not told.</summary>
    public DeviceTime? Time { get; init; }

    /// <summary>State of the measurement, bits of <see cref="OximeterStatus"/>; null: not told.</summary>
    public ushort? Status { get; init; }

    /// <summary>State of device and sensor, bits of <see cref="OximeterDeviceStatus"/>, 24 bits; null: not told.</summary>
    public int? DeviceStatus { get; init; }

    /// <summary>Pulse amplitude index [%]; null: not told.</summary>
    public SFloat? AmplitudePercent { get; init; }

    /// <summary>Whether the clock of the device is not set.</summary>
    public bool IsClockUnset { get; init; }

    /// <summary>Reads a value.</summary>
    /// <param name="value">The bytes.</param>
    /// <param name="spot">What they say.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> value, out OximeterSpotCheck spot)
    {
        var reader = new ValueReader(value);
        int flags = reader.Byte();
        spot = new OximeterSpotCheck(reader.Number(), reader.Number())
        {
            Time = reader.TimeIf((flags & HasTime) != 0),
            Status = reader.WordIf((flags & HasStatus) != 0),
            DeviceStatus = reader.ThreeBytesIf((flags & HasDeviceStatus) != 0),
            AmplitudePercent = reader.NumberIf((flags & HasAmplitude) != 0),
            IsClockUnset = (flags & ClockUnset) != 0,
        };
        return reader.IsWhole && (spot.Time is not DeviceTime time || time.IsValid);
    }

    /// <summary>Writes the value.</summary>
    /// <param name="value">Receives it; <see cref="MaximumBytes"/> always do.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> value)
    {
        var writer = new ValueWriter(value);
        writer.Byte((Time is null ? 0 : HasTime) | (Status is null ? 0 : HasStatus) | (DeviceStatus is null ? 0 : HasDeviceStatus)
            | (AmplitudePercent is null ? 0 : HasAmplitude) | (IsClockUnset ? ClockUnset : 0));
        writer.Number(SaturationPercent);
        writer.Number(PulseRateBpm);
        writer.Time(Time);
        writer.Word(Status);
        writer.ThreeBytes(DeviceStatus);
        writer.Number(AmplitudePercent);
        return writer.Length;
    }
}
