// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Rhythm;

/// <summary>Everything that changes while a rhythm goes on; copied for a checkpoint.</summary>
internal sealed class RhythmState
{
    // The longest group, 30 beats at 100 bpm, with a P wave every 0.2 s beside it: some 120.
    private const int Capacity = 256;
    private readonly HeartEvent[] _queue = new HeartEvent[Capacity];
    private int _head;
    private int _count;

    /// <summary>Where the next sinus impulse would have its R wave [s].</summary>
    public double SinusSeconds { get; set; }

    /// <summary>Number of that impulse; its draws go by it.</summary>
    public long SinusIndex { get; set; }

    /// <summary>Whether the sinus node has gone on up to now.</summary>
    public bool IsSinusRunning { get; set; }

    /// <summary>Where a rhythm with a clock of its own has its next beat [s].</summary>
    public double NextSeconds { get; set; }

    /// <summary>Beats with a QRS so far; draws of rhythms without sinus node go by it.</summary>
    public long BeatCount { get; private set; }

    /// <summary>The latest R wave [s].</summary>
    public double LastRSeconds { get; private set; }

    /// <summary>Sinus beats since the last ventricular premature beat.</summary>
    public int SinceVentricular { get; set; }

    /// <summary>Sinus beats since the last atrial premature beat.</summary>
    public int SinceAtrial { get; set; }

    /// <summary>Place in a cycle of block or a list of beats, number of a flutter wave, or of a beat since the begin of the stretch.</summary>
    public long Place { get; set; }

    /// <summary>Number of the stretch of the rhythm's course.</summary>
    public int Stretch { get; set; } = -1;

    /// <summary>
    /// Number of a draw of a rhythm without sinus node: it counts from the begin of its stretch, so that beats before it move none.
    /// </summary>
    public long Draw => ((long)Stretch << 32) + Place;

    /// <summary>No further event will lie before this time [s].</summary>
    public double HorizonSeconds { get; set; }

    /// <summary>Whether no event waits to be taken out.</summary>
    public bool IsEmpty => _count == 0;

    /// <summary>Time of the event that waits to be taken out next [s].</summary>
    public double FirstSeconds => _queue[_head].Seconds;

    /// <summary>Adds an event; not earlier than the one before.</summary>
    public void Add(in HeartEvent item)
    {
        if (_count == Capacity)
        {
            throw new InvalidOperationException($"More than {Capacity} events of the heart wait; take them out after every step.");
        }

        _queue[(_head + _count) % Capacity] = item;
        _count++;
        if (item.Class != BeatClass.Blocked)
        {
            LastRSeconds = item.Seconds;
            BeatCount++;
        }
    }

    /// <summary>Takes out the earliest event.</summary>
    public bool TryTake(out HeartEvent item)
    {
        item = _queue[_head];
        if (_count == 0)
        {
            return false;
        }

        _head = (_head + 1) % Capacity;
        _count--;
        return true;
    }

    /// <summary>Says where the beat before the first one lay [s].</summary>
    public void Begin(double lastRSeconds) => LastRSeconds = lastRSeconds;

    /// <summary>An independent copy.</summary>
    public RhythmState Copy()
    {
        var copy = new RhythmState
        {
            _head = _head,
            _count = _count,
            SinusSeconds = SinusSeconds,
            SinusIndex = SinusIndex,
            IsSinusRunning = IsSinusRunning,
            NextSeconds = NextSeconds,
            BeatCount = BeatCount,
            LastRSeconds = LastRSeconds,
            SinceVentricular = SinceVentricular,
            SinceAtrial = SinceAtrial,
            Place = Place,
            Stretch = Stretch,
            HorizonSeconds = HorizonSeconds,
        };
        _queue.CopyTo(copy._queue, 0);
        return copy;
    }
}
