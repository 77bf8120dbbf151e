// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Sensing.Acquisition;

/// <summary>Flagged samples of one reason that follow each other closely enough to be one stretch, told in pieces that touch.</summary>
/// <remarks>
/// The stretch reaches from the first flagged sample to the end of the last one. Nothing is told before it holds enough of them; then all of it,
/// back to its begin, and from then on what has been added since. Which samples are told does not depend on how they are cut.
/// </remarks>
internal struct FlaggedStretch
{
    private readonly ChannelName _channel;
    private readonly AcquisitionKind _kind;
    private readonly long _rateHz;
    private readonly long _reachSamples;
    private readonly long _leastSamples;
    private bool _isOpen;
    private long _flagged;
    private long _last;
    private long _toldUntil;

    /// <summary>Creates an empty one.</summary>
    /// <param name="format">The channel.</param>
    /// <param name="kind">What is told.</param>
    /// <param name="reachSamples">Most samples from one flagged sample to the next of the same stretch.</param>
    /// <param name="leastSamples">Flagged samples that a stretch must hold to be told.</param>
    public FlaggedStretch(ChannelFormat format, AcquisitionKind kind, long reachSamples, long leastSamples)
    {
        _channel = format.Name;
        _kind = kind;
        _rateHz = format.RateHz;
        _reachSamples = reachSamples;
        _leastSamples = leastSamples;
    }

    /// <summary>Whether a sample would go on with the stretch.</summary>
    /// <param name="index">Index of the sample.</param>
    public readonly bool Reaches(long index) => _isOpen && index - _last <= _reachSamples;

    /// <summary>Adds a flagged sample, later than those before.</summary>
    /// <param name="index">Index of the sample.</param>
    /// <param name="events">Receives what is left to tell of the stretch before.</param>
    public void Add(long index, EventRing<AcquisitionEvent> events)
    {
        if (!Reaches(index))
        {
            Tell(events);
            _isOpen = true;
            _flagged = 0;
            _toldUntil = index;
        }

        _last = index;
        _flagged++;
    }

    /// <summary>Tells what has not been told, if the stretch is long enough.</summary>
    /// <param name="events">Receives the piece.</param>
    public void Tell(EventRing<AcquisitionEvent> events)
    {
        if (_isOpen && _last >= _toldUntil && _flagged >= _leastSamples)
        {
            events.Add(new AcquisitionEvent(_channel, _kind, Ns(_toldUntil), Ns(_last + 1), double.NaN));
            _toldUntil = _last + 1;
        }
    }

    // As StreamFormat.DeviceTimeNs.
    private readonly long Ns(long index) => (index / _rateHz * TickClock.NanosecondsPerSecond)
        + (index % _rateHz * TickClock.NanosecondsPerSecond / _rateHz);
}
