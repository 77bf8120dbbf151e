// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Bluetooth;

/// <summary>Blood Pressure Measurement, characteristic 2A35 of the Bluetooth Blood Pressure Service.</summary>
/// <remarks>What is not known of the three is <see cref="SFloat.NotANumber"/>.</remarks>
/// <param name="Systolic">Systolic pressure [mmHg, or kPa].</param>
/// <param name="Diastolic">Diastolic pressure.</param>
/// <param name="Mean">Mean arterial pressure.</param>
public readonly record struct BloodPressureMeasurement(SFloat Systolic, SFloat Diastolic, SFloat Mean)
{
    /// <summary>Most bytes of a value.</summary>
    public const int MaximumBytes = 19;

    /// <summary>The user is not known.</summary>
    public const byte UnknownUser = 255;

    private const int InKilopascal = 1;
    private const int HasTime = 2;
    private const int HasPulseRate = 4;
    private const int HasUser = 8;
    private const int HasStatus = 16;

    /// <summary>Whether the pressures are in kPa, not in mmHg.</summary>
    public bool IsInKilopascal { get; init; }

    /// <summary>When it was measured; null: not told.</summary>
    public DeviceTime? Time { get; init; }

    /// <summary>Pulse rate [bpm]; null: not told.</summary>
    public SFloat? PulseRateBpm { get; init; }

    /// <summary>Whose it is, 255 unknown; null: not told.</summary>
    public byte? User { get; init; }

    /// <summary>State of the measurement, bits of <see cref="BloodPressureStatus"/>; null: not told.</summary>
    public ushort? Status { get; init; }

    /// <summary>Reads a value.</summary>
    /// <param name="value">The bytes.</param>
    /// <param name="measurement">What they say.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> value, out BloodPressureMeasurement measurement)
    {
        var reader = new ValueReader(value);
        int flags = reader.Byte();
        measurement = new BloodPressureMeasurement(reader.Number(), reader.Number(), reader.Number())
        {
            IsInKilopascal = (flags & InKilopascal) != 0,
            Time = reader.TimeIf((flags & HasTime) != 0),
            PulseRateBpm = reader.NumberIf((flags & HasPulseRate) != 0),
            User = (flags & HasUser) != 0 ? (byte)reader.Byte() : null,
            Status = reader.WordIf((flags & HasStatus) != 0),
        };
        return reader.IsWhole && (measurement.Time is not DeviceTime time || time.IsValid);
    }

    /// <summary>Writes the value.</summary>
    /// <param name="value">Receives it; <see cref="MaximumBytes"/> always do.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> value)
    {
        var writer = new ValueWriter(value);
        writer.Byte((IsInKilopascal ? InKilopascal : 0) | (Time is null ? 0 : HasTime) | (PulseRateBpm is null ? 0 : HasPulseRate)
            | (User is null ? 0 : HasUser) | (Status is null ? 0 : HasStatus));
        writer.Number(Systolic);
        writer.Number(Diastolic);
        writer.Number(Mean);
        writer.Time(Time);
        writer.Number(PulseRateBpm);
        if (User is byte user)
        {
            writer.Byte(user);
        }

        writer.Word(Status);
        return writer.Length;
    }
}

/// <summary>State of a measurement of the Bluetooth Blood Pressure Service.</summary>
[Flags]
public enum BloodPressureStatus
{
    /// <summary>Nothing is said.</summary>
    None = 0,

    /// <summary>The body moved.</summary>
    Movement = 1,

    /// <summary>The cuff is too loose.</summary>
    CuffLoose = 2,

    /// <summary>The pulse is irregular.</summary>
    IrregularPulse = 4,

    /// <summary>The pulse rate is above the range of the device.</summary>
    PulseAbove = 8,

    /// <summary>The pulse rate is below the range of the device.</summary>
    PulseBelow = 16,

    /// <summary>The position is wrong.</summary>
    WrongPosition = 32,
}
