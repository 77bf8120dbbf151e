// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Bluetooth;

/// <summary>Saturation and pulse rate at one speed of averaging.</summary>
/// <param name="SaturationPercent">Oxygen saturation [%].</param>
/// <param name="PulseRateBpm">Pulse rate [bpm].</param>
public readonly record struct OximeterPair(SFloat SaturationPercent, SFloat PulseRateBpm);

/// <summary>PLX Continuous Measurement, characteristic 2A5F of the Bluetooth Pulse Oximeter Service.</summary>
/// <param name="Normal">At normal averaging.</param>
public readonly record struct OximeterContinuous(OximeterPair Normal)
{
    /// <summary>Most bytes of a value.</summary>
    public const int MaximumBytes = 20;

    private const int HasFast = 1;
    private const int HasSlow = 2;
    private const int HasStatus = 4;
    private const int HasDeviceStatus = 8;
    private const int HasAmplitude = 16;

    /// <summary>At fast averaging; null: not told.</summary>
    public OximeterPair? Fast { get; init; }

    /// <summary>At slow averaging; null: not told.</summary>
    public OximeterPair? Slow { get; init; }

    /// <summary>State of the measurement, bits of <see cref="OximeterStatus"/>; null: not told.</summary>
    public ushort? Status { get; init; }

    /// <summary>State of device and sensor, bits of <see cref="OximeterDeviceStatus"/>, 24 bits; null: not told.</summary>
    public int? DeviceStatus { get; init; }

    /// <summary>Pulse amplitude index [%]; null: not told.</summary>
    public SFloat? AmplitudePercent { get; init; }

    /// <summary>Reads a value.</summary>
    /// <param name="value">The bytes.</param>
    /// <param name="continuous">What they say.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> value, out OximeterContinuous continuous)
    {
        var reader = new ValueReader(value);
        int flags = reader.Byte();
        continuous = new OximeterContinuous(Pair(ref reader))
        {
            Fast = (flags & HasFast) != 0 ? Pair(ref reader) : null,
            Slow = (flags & HasSlow) != 0 ? Pair(ref reader) : null,
            Status = reader.WordIf((flags & HasStatus) != 0),
            DeviceStatus = reader.ThreeBytesIf((flags & HasDeviceStatus) != 0),
            AmplitudePercent = reader.NumberIf((flags & HasAmplitude) != 0),
        };
        return reader.IsWhole;
    }

    /// <summary>Writes the value.</summary>
    /// <param name="value">Receives it; <see cref="MaximumBytes"/> always do.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> value)
    {
        var writer = new ValueWriter(value);
        writer.Byte((Fast is null ? 0 : HasFast) | (Slow is null ? 0 : HasSlow) | (Status is null ? 0 : HasStatus)
            | (DeviceStatus is null ? 0 : HasDeviceStatus) | (AmplitudePercent is null ? 0 : HasAmplitude));
        Pair(ref writer, Normal);
        Pair(ref writer, Fast);
        Pair(ref writer, Slow);
        writer.Word(Status);
        writer.ThreeBytes(DeviceStatus);
        writer.Number(AmplitudePercent);
        return writer.Length;
    }

    private static OximeterPair Pair(ref ValueReader reader) => new(reader.Number(), reader.Number());

    private static void Pair(ref ValueWriter writer, OximeterPair? pair)
    {
        writer.Number(pair?.SaturationPercent);
        writer.Number(pair?.PulseRateBpm);
    }
}
