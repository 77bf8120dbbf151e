// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Matching;

/// <summary>One event that waits for its partner.</summary>
internal struct PendingEvent
{
    public long TimeNs;

    /// <summary>Of a detection, from the event to its emission [ns]; negative when unknown.</summary>
    public long LatencyNs;
    public bool IsClosed;
    private byte _flags;
    private byte _label;

    // A byte each: some thirty rows hold the events of 12 s, and the first-level cache shall hold them all.
    public TruthFlags Flags
    {
        readonly get => (TruthFlags)_flags;
        set => _flags = (byte)value;
    }

    public BeatClass Label
    {
        readonly get => (BeatClass)_label;
        set => _label = (byte)value;
    }
}

/// <summary>Events in order of time, of stated capacity; events of equal time stay in the order of their coming.</summary>
/// <remarks>Memory follows the largest number that ever waited, in doublings up to the capacity.</remarks>
internal sealed class PendingEvents
{
    private const int FirstRoom = 32;

    // As many have gone when those that wait move to the front: so only the front of a large room is used, and stays in the cache.
    private const int FewestGone = 32;

    // Up to twice the capacity, so that moving everything to the front is rare.
    private PendingEvent[] _items;
    private readonly int _capacity;
    private int _head;

    public PendingEvents(int capacity)
    {
        _capacity = capacity;
        _items = new PendingEvent[Math.Min(capacity, FirstRoom) * 2];
    }

    public int Count { get; private set; }

    public bool IsFull => Count == _capacity;

    public ref PendingEvent this[int index] => ref _items[_head + index];

    /// <summary>Adds an event; there must be room.</summary>
    public void Insert(in PendingEvent item)
    {
        if (_head >= FewestGone && _head >= Count)
        {
            MoveTo(_items);
        }
        else if (_head + Count == _items.Length)
        {
            // Half of it free: there is room at the front; else it is too small.
            MoveTo(Count <= _items.Length / 2 ? _items : new PendingEvent[Math.Min(_capacity * 2, _items.Length * 2)]);
        }

        int at = _head + Count;
        while (at > _head && _items[at - 1].TimeNs > item.TimeNs)
        {
            _items[at] = _items[at - 1];
            at--;
        }

        _items[at] = item;
        Count++;
    }

    /// <summary>Takes the room of the whole capacity now.</summary>
    public void Reserve()
    {
        if (_items.Length < _capacity * 2)
        {
            MoveTo(new PendingEvent[_capacity * 2]);
        }
    }

    /// <summary>The oldest event, which is open; it is forgotten.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public PendingEvent TakeOldest()
    {
        Count--;
        return _items[_head++];
    }

    /// <summary>Forgets closed events up to the first open one.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void DropClosed()
    {
        while (Count > 0 && _items[_head].IsClosed)
        {
            _head++;
            Count--;
        }
    }

    /// <summary>The open event closest to a time within a window, the earlier one of two equally close; −1 when there is none.</summary>
    public int Closest(long timeNs, long windowNs)
    {
        int best = -1;
        long bestDistance = long.MaxValue;
        for (int i = FirstAtOrAfter(timeNs - windowNs); i < Count; i++)
        {
            ref PendingEvent item = ref _items[_head + i];
            long distance = Math.Abs(item.TimeNs - timeNs);
            if (distance > windowNs || (item.TimeNs > timeNs && distance >= bestDistance))
            {
                break;
            }

            if (!item.IsClosed && distance < bestDistance)
            {
                best = i;
                bestDistance = distance;
            }
        }

        return best;
    }

    private void MoveTo(PendingEvent[] target)
    {
        Array.Copy(_items, _head, target, 0, Count);
        _items = target;
        _head = 0;
    }

    private int FirstAtOrAfter(long timeNs)
    {
        int low = 0;
        int high = Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_items[_head + middle].TimeNs < timeNs)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }
}
