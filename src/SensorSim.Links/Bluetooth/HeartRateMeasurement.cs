// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Bluetooth;

/// <summary>Heart Rate Measurement, characteristic 2A37 of the Bluetooth Heart Rate Service.</summary>
/// <remarks>RR intervals go beside it, in 1/1024 s, the oldest first.</remarks>
/// <param name="RateBpm">Heart rate [bpm], 0 to 65,535.</param>
public readonly record struct HeartRateMeasurement(int RateBpm)
{
    /// <summary>Units of an RR interval in a second.</summary>
    public const int IntervalUnitsPerSecond = 1024;

    /// <summary>Most bytes of a value on a connection that has not agreed on more (an ATT MTU of 23).</summary>
    public const int UsualRoom = 20;

    private const int WideRate = 1;
    private const int ContactDetected = 2;
    private const int ContactSupported = 4;
    private const int HasEnergy = 8;
    private const int HasIntervals = 16;

    /// <summary>Whether the sensor touches the skin.</summary>
    public SkinContact Contact { get; init; }

    /// <summary>Energy spent [kJ]; null: not told.</summary>
    public ushort? EnergyKilojoules { get; init; }

    /// <summary>Whether the rate takes two bytes though one would do.</summary>
    public bool IsWide { get; init; }

    /// <summary>How many RR intervals fit beside it.</summary>
    /// <param name="room">Bytes of the value.</param>
    public int IntervalRoom(int room) => Math.Max(0, (room - 1 - (NeedsWide ? 2 : 1) - (EnergyKilojoules is null ? 0 : 2)) / 2);

    private bool NeedsWide => IsWide || RateBpm > byte.MaxValue;

    /// <summary>Reads a value.</summary>
    /// <param name="value">The bytes.</param>
    /// <param name="measurement">What they say.</param>
    /// <param name="intervals">Receives the RR intervals [1/1024 s], the oldest first; as many as half the bytes always find room.</param>
    /// <param name="count">How many there are.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> value, out HeartRateMeasurement measurement, Span<ushort> intervals, out int count)
    {
        var reader = new ValueReader(value);
        int flags = reader.Byte();
        bool isWide = (flags & WideRate) != 0;
        measurement = new HeartRateMeasurement(isWide ? reader.Word() : reader.Byte())
        {
            IsWide = isWide,
            Contact = (flags & ContactSupported) == 0 ? SkinContact.NotTold : (flags & ContactDetected) != 0 ? SkinContact.Yes : SkinContact.No,
            EnergyKilojoules = reader.WordIf((flags & HasEnergy) != 0),
        };
        count = (flags & HasIntervals) != 0 ? Math.Min(intervals.Length, reader.Left / 2) : 0;
        for (int i = 0; i < count; i++)
        {
            intervals[i] = reader.Word();
        }

        return reader.IsWhole;
    }

    /// <summary>Writes the value.</summary>
    /// <param name="intervals">RR intervals [1/1024 s], the oldest first; at most <see cref="IntervalRoom"/>.</param>
    /// <param name="value">Receives it.</param>
    /// <returns>Bytes written.</returns>
    /// <exception cref="ArgumentException">It does not fit.</exception>
    public int Write(ReadOnlySpan<ushort> intervals, Span<byte> value)
    {
        if (intervals.Length > IntervalRoom(value.Length) || RateBpm is < 0 or > ushort.MaxValue)
        {
            throw new ArgumentException($"{RateBpm} bpm and {intervals.Length} intervals do not fit into {value.Length} bytes.", nameof(value));
        }

        var writer = new ValueWriter(value);
        int contact = Contact switch { SkinContact.Yes => ContactSupported | ContactDetected, SkinContact.No => ContactSupported, _ => 0 };
        writer.Byte((NeedsWide ? WideRate : 0) | contact | (EnergyKilojoules is null ? 0 : HasEnergy) | (intervals.IsEmpty ? 0 : HasIntervals));
        if (NeedsWide)
        {
            writer.Word(RateBpm);
        }
        else
        {
            writer.Byte(RateBpm);
        }

        writer.Word(EnergyKilojoules);
        foreach (ushort interval in intervals)
        {
            writer.Word((int)interval);
        }

        return writer.Length;
    }
}

/// <summary>Whether a sensor touches the skin.</summary>
public enum SkinContact
{
    /// <summary>The sensor does not say.</summary>
    NotTold,

    /// <summary>It does not.</summary>
    No,

    /// <summary>It does.</summary>
    Yes,
}
