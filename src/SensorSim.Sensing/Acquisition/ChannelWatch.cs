// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Acquisition;

/// <summary>Watches the status words of one channel before anything is hidden or lost, and tells which stretches are unusable.</summary>
/// <remarks>
/// <para>Each flagged sample has one reason: an electrode of the voltage without contact, else no contact with the skin, else saturation.
/// Saturation that follows a lead-off within <see cref="ReachMs"/> belongs to it: the channel has not recovered yet.</para>
/// <para>The third electrode alone makes nothing unusable: the voltage between the other two is still there, with more of what both pick
/// up together, and how a detector gets on with that is just what is to be tested.</para>
/// </remarks>
internal sealed class ChannelWatch
{
    /// <summary>Flagged samples at most this far apart are one stretch [ms].</summary>
    public const int ReachMs = 250;

    /// <summary>
    /// Saturation is unusable when the saturated samples of a stretch come to this [ms]; the clipped tip of an R peak or of a pulse does not,
    /// nor do two pacing spikes.
    /// </summary>
    public const int LeastSaturatedMs = 100;

    private const ushort LeadOff = (ushort)(SampleStatus.LeadOffPositive | SampleStatus.LeadOffNegative);
    private const ushort Saturated = (ushort)(SampleStatus.Saturated | SampleStatus.OverRange);
    private const ushort NoContact = (ushort)SampleStatus.NoContact;
    private const ushort Watched = LeadOff | Saturated | NoContact;

    private FlaggedStretch _leadOff;
    private FlaggedStretch _saturated;
    private FlaggedStretch _noContact;

    /// <summary>Creates the watch of a channel.</summary>
    /// <param name="format">The channel.</param>
    public ChannelWatch(ChannelFormat format)
    {
        long reach = Math.Max(1, (long)format.RateHz * ReachMs / 1000);
        _leadOff = new FlaggedStretch(format, AcquisitionKind.UnusableLeadOff, reach, 1);
        _saturated = new FlaggedStretch(format, AcquisitionKind.UnusableSaturated, reach, (((long)format.RateHz * LeastSaturatedMs) + 999) / 1000);
        _noContact = new FlaggedStretch(format, AcquisitionKind.UnusableNoContact, reach, 1);
    }

    /// <summary>Looks at samples.</summary>
    /// <param name="status">Complete status words, as the sources set them.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="events">Receives what is to be told.</param>
    public void See(ReadOnlySpan<ushort> status, long firstIndex, EventRing<AcquisitionEvent> events)
    {
        // Nearly always nothing is flagged, and the number of the settings is the same throughout.
        if (status.IsEmpty || ((status[0] & Watched) == 0 && !status.ContainsAnyExcept(status[0])))
        {
            return;
        }

        for (int i = 0; i < status.Length; i++)
        {
            int flags = status[i] & Watched;
            if (flags != 0)
            {
                Add(flags, firstIndex + i, events);
            }
        }

        _leadOff.Tell(events);
        _saturated.Tell(events);
        _noContact.Tell(events);
    }

    /// <summary>An independent copy with the same state.</summary>
    public ChannelWatch Copy() => (ChannelWatch)MemberwiseClone();

    private void Add(int flags, long index, EventRing<AcquisitionEvent> events)
    {
        if ((flags & LeadOff) != 0 || ((flags & NoContact) == 0 && _leadOff.Reaches(index)))
        {
            _leadOff.Add(index, events);
        }
        else if ((flags & NoContact) != 0)
        {
            _noContact.Add(index, events);
        }
        else
        {
            _saturated.Add(index, events);
        }
    }
}
