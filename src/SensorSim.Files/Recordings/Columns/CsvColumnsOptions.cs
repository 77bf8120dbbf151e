// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings.Columns;

/// <summary>A column or signal of a foreign file, and the channel that it is to be.</summary>
/// <param name="Label">Name of the column or label of the signal, as the file has it.</param>
/// <param name="Channel">The channel.</param>
/// <param name="IsInverted">Whether its numbers fall where the channel's value rises.</param>
public sealed record ChannelMapping(string Label, ChannelName Channel, bool IsInverted = false);

/// <summary>What a table of several columns does not say itself.</summary>
public sealed record CsvColumnsOptions
{
    /// <summary>Which column is which channel; empty: the columns say so by their names.</summary>
    public IReadOnlyList<ChannelMapping> Map { get; init; } = [];

    /// <summary>The column that says where a row stands, and what it is (a word of <see cref="CsvColumnsSource.PlaceNames"/>); null: a column is called so.</summary>
    public (string Label, string Name)? Place { get; init; }

    /// <summary>The only channel that is wanted of an empty <see cref="Map"/>: the column that is called after it, or else the only one; null: all of them.</summary>
    public ChannelName? Only { get; init; }

    /// <summary>Sampling rate [Hz], 1 to 1,000,000; null: a column of times says it.</summary>
    public int? RateHz { get; init; }

    /// <summary>Unit of every column that is used, a word of <see cref="ColumnUnits.All"/>; null: the columns' names say it, mV for an ECG without.</summary>
    public string? Unit { get; init; }

    /// <summary>Value of one code of the ECG [mV]; null for 1 µV.</summary>
    public double? EcgMvPerCode { get; init; }

    /// <summary>Whether the numbers of every column that is used point the other way.</summary>
    public bool IsInverted { get; init; }
}
