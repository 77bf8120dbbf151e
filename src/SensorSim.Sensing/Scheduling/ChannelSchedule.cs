// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Scheduling;

/// <summary>The changes of one channel's settings, by the sample that shows each first; read forward.</summary>
/// <remarks>Places are absolute, so no cut changes a bit. Changes come in order of their ticks, several to a sample if need be; of the same tick planned
/// ones come before added ones.</remarks>
internal sealed class ChannelSchedule
{
    // Changes that wait; a control loop hands them over one quantum ahead.
    private const int Room = 64;

    private readonly Change[] _planned;
    private readonly EventRing<Change> _added;
    private int _next;

    /// <summary>Creates a schedule.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="channel">The channel's number.</param>
    /// <param name="planned">Every planned change of the stream, in ascending order of ticks.</param>
    public ChannelSchedule(StreamFormat format, int channel, IEnumerable<SettingsRequest> planned)
    {
        _planned = [.. planned.Where(p => p.Channel == channel).Select(p => Of(format, p))];
        _added = new EventRing<Change>(Room);
        FindNext();
    }

    private ChannelSchedule(ChannelSchedule other)
    {
        _planned = other._planned;
        _added = other._added.Copy();
        _next = other._next;
        NextSample = other.NextSample;
    }

    /// <summary>The first sample that shows the next change; <see cref="long.MaxValue"/> when there is none.</summary>
    public long NextSample { get; private set; }

    /// <summary>Adds a change.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="change">The change; not before the last one added.</param>
    /// <returns>Whether there was room.</returns>
    public bool Add(StreamFormat format, in SettingsRequest change)
    {
        Change added = Of(format, change);
        if (_added.Count > 0 && added.Tick < _added[_added.Count - 1].Tick)
        {
            throw new ArgumentException($"The change at tick {change.EffectiveTick} comes before one that was added earlier.", nameof(change));
        }

        bool hasRoom = _added.Add(added);
        FindNext();
        return hasRoom;
    }

    /// <summary>Makes every change that a sample is the first to show.</summary>
    /// <param name="sample">Index of the sample made next; its changes are due when it is <see cref="NextSample"/>.</param>
    /// <param name="source">Gets the new settings.</param>
    /// <param name="atNs">Nominal device time of the sample [ns].</param>
    /// <param name="events">Told each change; a value that held already is none.</param>
    public void Apply(long sample, ChannelSource source, long atNs, EventRing<AcquisitionEvent> events)
    {
        while (NextSample <= sample)
        {
            Change change = TakeNext();
            if (source.Change(change.Setting, change.ValueMilli, sample))
            {
                events.Add(new AcquisitionEvent(
                    source.Format.Name, AcquisitionKind.Setting, atNs, atNs, change.ValueMilli / 1000.0, change.Setting));
            }

            FindNext();
        }
    }

    /// <summary>An independent copy at the same place.</summary>
    public ChannelSchedule Copy() => new(this);

    private static Change Of(StreamFormat format, in SettingsRequest row) =>
        new(row.EffectiveTick, format.FirstSampleAtOrAfter(row.Channel, row.EffectiveTick), row.Setting, row.ValueMilli);

    private Change TakeNext()
    {
        if (_added.Count > 0 && (_next == _planned.Length || _added[0].Tick < _planned[_next].Tick))
        {
            _added.TryTake(out Change added);
            return added;
        }

        return _planned[_next++];
    }

    private void FindNext()
    {
        long planned = _next < _planned.Length ? _planned[_next].FirstSample : long.MaxValue;
        NextSample = _added.Count > 0 ? Math.Min(planned, _added[0].FirstSample) : planned;
    }

    private readonly record struct Change(long Tick, long FirstSample, SensorSetting Setting, int ValueMilli);
}
