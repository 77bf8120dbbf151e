// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>What a C header holds: samples of a few channels as constant arrays, and the numbers that firmware tells its library.</summary>
public sealed record VectorHeader
{
    /// <summary>Name of the file without <c>.h</c>: lower-case letters, digits, hyphens.</summary>
    public required string Name { get; init; }

    /// <summary>Lines of the comment at its top; only ASCII is written.</summary>
    public required IReadOnlyList<string> Comment { get; init; }

    /// <summary>Width of a code, 16 or 32.</summary>
    public required int Bits { get; init; }

    /// <summary>Every how many-th sample was kept.</summary>
    public required int KeepEvery { get; init; }

    /// <summary>Format of the stream that the arrays hold.</summary>
    public required StreamFormat Format { get; init; }

    /// <summary>First tick after its end.</summary>
    public required long EndTick { get; init; }

    /// <summary>Its channels, in the order of the format.</summary>
    public required IReadOnlyList<VectorHeaderChannel> Channels { get; init; }

    /// <summary>Size of all arrays as compiled [bytes].</summary>
    public long ArrayBytes => Channels.Sum(c =>
        ((long)c.Codes.Count * (Bits / 8)) + ((long)c.Runs.Count * VectorHeaderWriter.RunBytes) + ((long)c.Statuses.Count * VectorHeaderWriter.StatusBytes));

    /// <summary>Name in C.</summary>
    public string CName => "vector_" + Name.Replace('-', '_');
}

/// <summary>A channel of a C header.</summary>
public sealed record VectorHeaderChannel
{
    /// <summary>Number of the channel in the library.</summary>
    public required int Role { get; init; }

    /// <summary>Codes for one unit, times 256, as the library is told them.</summary>
    public required int CodesPerUnit256 { get; init; }

    /// <summary>Declared delay [1/256 tick], as the library is told it.</summary>
    public required long Delay256 { get; init; }

    /// <summary>Bits by which the codes were shifted to the right.</summary>
    public required int Shift { get; init; }

    /// <summary>Codes that came, one after another.</summary>
    public required IReadOnlyList<int> Codes { get; init; }

    /// <summary>Consecutive samples: sample number of the first one, how many.</summary>
    public required IReadOnlyList<(long FirstIndex, int Count)> Runs { get; init; }

    /// <summary>Status words that are not 0: place of the first code, how many, word.</summary>
    public required IReadOnlyList<(int First, int Count, ushort Word)> Statuses { get; init; }
}
