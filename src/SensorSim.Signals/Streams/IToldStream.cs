// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Signals.Streams;

/// <summary>A stream that is made: its truth is known, and its settings can be changed.</summary>
public interface IToldStream : IAdjustableStream, IAcquiredStream
{
    /// <summary>Truth of the body; complete up to the position after each read. The reader takes the rows out.</summary>
    EventRing<TruthEvent> Truth { get; }
}
