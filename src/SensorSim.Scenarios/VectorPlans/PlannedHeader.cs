// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>A C header that a case ships.</summary>
public sealed record PlannedHeader
{
    /// <summary>Name of the file without <c>.h</c>: the case's, unless the plan gives another.</summary>
    public required string Name { get; init; }

    /// <summary>Its channels, in the order of the stream.</summary>
    public required IReadOnlyList<ChannelName> Channels { get; init; }

    /// <summary>Width of a code in the header, 16 or 32.</summary>
    public required int Bits { get; init; }

    /// <summary>Every how many-th sample is kept, at least 1.</summary>
    public required int KeepEvery { get; init; }

    /// <summary>Largest size of all arrays together [bytes].</summary>
    public required long MaxBytes { get; init; }
}
