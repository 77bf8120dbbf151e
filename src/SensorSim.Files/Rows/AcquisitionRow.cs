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

    internal static bool IsItem(ReadOnlySpan<char> text) => !text.IsEmpty && !text.ContainsAnyExcept(s_itemCharacters);
}

/// <summary>The items of <c>acquisition.csv</c> that the project itself writes and reads.</summary>
public static class AcquisitionItems
{
    /// <summary>Name of the device, as label.</summary>
    public const string Device = "device";

    /// <summary>Nominal sampling rate [Hz].</summary>
    public const string RateHz = "rate_hz";

    /// <summary>Bits of the converter.</summary>
    public const string Bits = "bits";

    /// <summary>Physical value of one code step [unit of the channel per code].</summary>
    public const string UnitPerCode = "unit_per_code";

    /// <summary>Deviation of the actual sampling rate from the nominal one over a stretch [ppm].</summary>
    public const string ClockSegmentPpm = "clock_segment_ppm";

    /// <summary>Declared delay of the chain [ns].</summary>
    public const string DeclaredDelayNs = "declared_delay_ns";

    /// <summary>Samples that the sensor never delivered.</summary>
    public const string Gap = "gap";

    /// <summary>Start of every item that gives a level of a disturbance.</summary>
    public const string LevelPrefix = "level_";

    /// <summary>Start of every item that marks a stretch as unusable.</summary>
    public const string UnusablePrefix = "unusable_";
}
