// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Delivery;

/// <summary>Tells what a channel lost: every gap, and those of at least 100 ms as unusable.</summary>
/// <remarks>
/// A QRS complex lasts about 100 ms: a shorter gap leaves part of every beat, and bridging it is the detector's business. A longer one may
/// hold a whole beat of which nothing arrived, for which no detector can answer. Unusable is the gap itself; what a detector needs to find
/// back after it is its own.
/// </remarks>
/// <param name="channel">The channel.</param>
/// <param name="rateHz">Its rate [Hz].</param>
internal sealed class GapTeller(ChannelName channel, int rateHz)
{
    /// <summary>Shortest gap that is unusable [s].</summary>
    public const double UnusableSeconds = 0.1;

    private long _begin;
    private long _end = -1;
    private long _unusableUntil;

    /// <summary>Samples are lost.</summary>
    /// <param name="begin">The first one; it may follow those of the call before.</param>
    /// <param name="end">First sample after them.</param>
    /// <param name="events">Receives what is to be told.</param>
    public void Lose(long begin, long end, EventRing<AcquisitionEvent> events)
    {
        if (begin != _end)
        {
            _begin = begin;
            _unusableUntil = begin;
        }

        _end = end;
        events.Add(new AcquisitionEvent(channel, AcquisitionKind.Gap, NominalTime.Ns(begin, rateHz), NominalTime.Ns(end, rateHz), end - begin));

        // Told late, back to the begin of the gap, once it is long enough.
        if (end - _begin >= UnusableSeconds * rateHz)
        {
            events.Add(new AcquisitionEvent(
                channel, AcquisitionKind.UnusableLost, NominalTime.Ns(_unusableUntil, rateHz), NominalTime.Ns(end, rateHz), double.NaN));
            _unusableUntil = end;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public GapTeller Copy() => (GapTeller)MemberwiseClone();
}
