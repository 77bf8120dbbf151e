// SPDX-License-Identifier: MIT
using System.Buffers;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>One row of <c>acquisition.csv</c>: something that holds for a channel from begin to end, in its device time.</summary>
/// <param name="Channel">Channel.</param>
/// <param name="Item">What it is about: one of <see cref="AcquisitionItems"/>, or another word of a-z, 0-9 and underscores.</param>
/// <param name="BeginNs">Begin [ns].</param>
/// <param name="EndNs">End, not included [ns]; null when it holds to the end of the record.</param>
/// <param name="Value">Value in <paramref name="Unit"/>; NaN when there is none.</param>
/// <param name="Unit">Unit of the value; empty when it has none.</param>
/// <param name="Label">A name or reason in words; empty when there is none.</param>
public readonly record struct AcquisitionRow(
    ChannelName Channel, string Item, long BeginNs, long? EndNs, double Value, string Unit, string Label)
{
    private static readonly SearchValues<char> s_itemCharacters = SearchValues.Create("abcdefghijklmnopqrstuvwxyz0123456789_");

    internal const string Header = "channel,item,begin_ns,end_ns,value,unit,label";

    /// <summary>Whether the row says that a stretch is unusable.</summary>
    public bool IsUnusable => Item.StartsWith(AcquisitionItems.UnusablePrefix, StringComparison.Ordinal);

    /// <summary>Device, rate, bits, scale and declared delay of a channel, valid throughout.</summary>
    /// <param name="channel">Format of the channel.</param>
    internal static IEnumerable<AcquisitionRow> Of(ChannelFormat channel) =>
    [
        new(channel.Name, AcquisitionItems.Device, 0, null, double.NaN, "", channel.Device),
        new(channel.Name, AcquisitionItems.RateHz, 0, null, channel.RateHz, "Hz", ""),
        new(channel.Name, AcquisitionItems.Bits, 0, null, channel.Bits, "", ""),
        new(channel.Name, AcquisitionItems.UnitPerCode, 0, null, channel.UnitPerCode, channel.Unit, ""),
        new(channel.Name, AcquisitionItems.DeclaredDelayNs, 0, null, channel.DeclaredDelayNs, "ns", ""),
    ];

    internal static bool IsItem(ReadOnlySpan<char> text) => !text.IsEmpty && !text.ContainsAnyExcept(s_itemCharacters);
}
