// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Exports;

/// <summary>Where a stream comes from: what a file of it says beside its samples.</summary>
/// <remarks>No path, no time of day, no name of a machine: the same stream gives the same bytes everywhere.</remarks>
public sealed record RecordingFacts
{
    /// <summary>Version of what the exports of this project say about themselves.</summary>
    public const int SchemaVersion = 1;

    /// <summary>Title in words; empty when there is none.</summary>
    public string Title { get; init; } = "";

    /// <summary>Seed that the stream was made with; null when it was not made here.</summary>
    public ulong? Seed { get; init; }

    /// <summary>Version of the generator that made it; null when it was not made here.</summary>
    public int? GeneratorVersion { get; init; }

    /// <summary>What is known of the stream as a whole, by key.</summary>
    internal IEnumerable<(string Key, string Value)> OfStream()
    {
        yield return ("schema_version", Text(SchemaVersion));
        if (Title.Length > 0)
        {
            yield return ("title", Title);
        }

        if (Seed is ulong seed)
        {
            yield return ("seed", seed.ToString(CultureInfo.InvariantCulture));
        }

        if (GeneratorVersion is int version)
        {
            yield return ("generator_version", Text(version));
        }
    }

    /// <summary>What is known of a channel, by key: the columns of <c>channels.csv</c>, and the clock.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="channel">The channel.</param>
    /// <param name="endTick">First tick after the end of the stream.</param>
    internal static IEnumerable<(string Key, string Value)> OfChannel(StreamFormat format, ChannelFormat channel, long endTick)
    {
        yield return ("channel", channel.Name.Text());
        yield return ("device", channel.Device);
        yield return ("rate_hz", Text(channel.RateHz));
        yield return ("bits", Text(channel.Bits));
        yield return ("signed", channel.IsSigned ? "1" : "0");
        yield return ("unit", channel.Unit);
        yield return ("unit_per_code", channel.UnitPerCode.ToString("R", CultureInfo.InvariantCulture));
        yield return ("zero_code", Text(channel.ZeroCode));
        yield return ("polarity", Text(channel.Polarity));
        yield return ("declared_delay_ns", Text(channel.DeclaredDelayNs));
        yield return ("ticks_per_second", Text(format.Clock.TicksPerSecond));
        yield return ("end_tick", Text(endTick));
    }

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
