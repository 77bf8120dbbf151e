// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>What the numbers of a one-column file are.</summary>
public enum ColumnUnit
{
    /// <summary>Millivolts, any decimal number; made into codes by the scale.</summary>
    Mv,

    /// <summary>Codes of a converter: whole numbers, taken as they are.</summary>
    Counts,
}

/// <summary>What a one-column file does not say itself.</summary>
public sealed record ColumnCsvOptions
{
    /// <summary>Channel that the numbers belong to.</summary>
    public ChannelName Channel { get; init; } = ChannelName.Ecg;

    /// <summary>Sampling rate [Hz], 1 to 1,000,000.</summary>
    public required int RateHz { get; init; }

    /// <summary>What the numbers are.</summary>
    public ColumnUnit Unit { get; init; } = ColumnUnit.Mv;

    /// <summary>
    /// Physical value of one code [unit of the channel per code], above 0. The default, 1 µV for millivolts, gives the 24 bits a
    /// range of ±8.4 V.
    /// </summary>
    public double UnitPerCode { get; init; } = 0.001;

    /// <summary>Whether the numbers fall where the channel's value rises: swapped electrodes, or a pulse drawn upwards.</summary>
    public bool IsInverted { get; init; }

    internal void Validate()
    {
        if (RateHz is < 1 or > 1_000_000)
        {
            throw new ArgumentOutOfRangeException(nameof(RateHz), RateHz, "The sampling rate must be 1 to 1000000 Hz.");
        }

        if (!(UnitPerCode > 0 && double.IsFinite(UnitPerCode)))
        {
            throw new ArgumentOutOfRangeException(nameof(UnitPerCode), UnitPerCode, "The value of one code must be above 0.");
        }

        if (Unit == ColumnUnit.Mv && Channel != ChannelName.Ecg)
        {
            throw new ArgumentException($"Millivolts belong to ecg; for {Channel.Text()} the numbers must be counts.", nameof(Unit));
        }
    }
}
