// SPDX-License-Identifier: MIT
using SensorSim.Files.Recordings.Columns;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>What an EDF or BDF file of somebody else does not say itself.</summary>
public sealed record EdfReadOptions
{
    /// <summary>Which signal is which channel, by its label, upper and lower case alike; when there is one, no other signal is read.</summary>
    public IReadOnlyDictionary<string, ChannelName> Map { get; init; } = new Dictionary<string, ChannelName>();

    /// <summary>Channels whose samples fall where the channel's value rises: swapped electrodes, or a pulse drawn upwards.</summary>
    public IReadOnlySet<ChannelName> Inverted { get; init; } = new HashSet<ChannelName>();

    /// <summary>Unit of the signals whose own one is not known, a word of <see cref="ColumnUnits.All"/> other than counts; null: such a signal is refused.</summary>
    public string? Unit { get; init; }

    /// <summary>Whether nothing is said: then our own files are read as what they were.</summary>
    internal bool IsEmpty => Map.Count == 0 && Inverted.Count == 0;
}
