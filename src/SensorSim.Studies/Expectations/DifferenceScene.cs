// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Expectations;

/// <summary>The samples around the first difference, with the marks of both detectors: what a picture needs.</summary>
public sealed record DifferenceScene
{
    /// <summary>What differs.</summary>
    public required MarkDifference Difference { get; init; }

    /// <summary>Format of the stream.</summary>
    public required StreamFormat Format { get; init; }

    /// <summary>Begin of the stretch [s], nominal device time.</summary>
    public required double BeginS { get; init; }

    /// <summary>End of the stretch [s].</summary>
    public required double EndS { get; init; }

    /// <summary>The channels shown, by number: that of the mark and that of what it is paired with.</summary>
    public required IReadOnlyList<int> Channels { get; init; }

    /// <summary>Index of the first value of each channel shown.</summary>
    public required IReadOnlyList<long> FirstSamples { get; init; }

    /// <summary>Physical values of each channel shown [its unit]; NaN where there is no sample.</summary>
    public required IReadOnlyList<double[]> Values { get; init; }

    /// <summary>Marks of the library inside, in order of emission.</summary>
    public required IReadOnlyList<Mark> Expected { get; init; }

    /// <summary>Marks of the detector under test inside, in order of emission.</summary>
    public required IReadOnlyList<Mark> Given { get; init; }

    /// <summary>Time of a value of a channel shown [s].</summary>
    /// <param name="place">Place of the channel in <see cref="Channels"/>.</param>
    /// <param name="element">Element of its values.</param>
    public double TimeS(int place, int element) => (double)(FirstSamples[place] + element) / Format.Channels[Channels[place]].RateHz;
}
