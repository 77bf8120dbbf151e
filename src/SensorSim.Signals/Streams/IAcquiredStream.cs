// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Signals.Streams;

/// <summary>A stream that also knows what its acquisition did to the signals: for scoring and for files, never for a detector.</summary>
public interface IAcquiredStream : ISampleStream
{
    /// <summary>
    /// What the acquisition did to the channels, as far as they have been read. The reader takes events out after each read; what finds no
    /// room is counted.
    /// </summary>
    EventRing<AcquisitionEvent> Acquisition { get; }

    /// <summary>The clock of each channel of the format, in its order.</summary>
    IReadOnlyList<ChannelClock> Clocks { get; }
}
