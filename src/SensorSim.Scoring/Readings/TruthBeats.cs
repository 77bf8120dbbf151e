// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Readings;

/// <summary>The latest true R peaks, in order of time; the oldest make room for the newest.</summary>
internal sealed class TruthBeats
{
    private readonly int _capacity;
    private Beat[] _beats;
    private int _count;

    public TruthBeats(int capacity, int firstRoom)
    {
        _capacity = capacity;
        _beats = new Beat[Math.Min(capacity, firstRoom)];
    }

    public struct Beat
    {
        public long TimeNs;
        public long BeatId;
        public TruthFlags Flags;
    }

    /// <summary>R peaks seen so far, forgotten ones included.</summary>
    public long Total { get; private set; }

    /// <summary>Nothing older than this is known any more [ns].</summary>
    public long KnownFromNs { get; private set; } = long.MinValue;

    public ref readonly Beat this[int index] => ref _beats[index];

    /// <summary>Takes the room of the whole capacity now.</summary>
    public void Reserve() => Array.Resize(ref _beats, _capacity);

    public void Add(long timeNs, long beatId, TruthFlags flags)
    {
        Total++;
        if (_count == _beats.Length && _count < _capacity)
        {
            Array.Resize(ref _beats, Room.After(_count, _capacity));
        }

        if (_count == _beats.Length)
        {
            // A quarter at once, so that moving is rare.
            int gone = Math.Max(1, _count / 4);
            KnownFromNs = _beats[gone - 1].TimeNs + 1;
            _count -= gone;
            Array.Copy(_beats, gone, _beats, 0, _count);
        }

        int at = _count++;
        while (at > 0 && _beats[at - 1].TimeNs > timeNs)
        {
            _beats[at] = _beats[at - 1];
            at--;
        }

        _beats[at] = new Beat { TimeNs = timeNs, BeatId = beatId, Flags = flags };
    }

    /// <summary>Index of the first R peak at or after a time; one past the last when there is none.</summary>
    public int FirstAtOrAfter(long timeNs)
    {
        int low = 0;
        int high = _count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_beats[middle].TimeNs < timeNs)
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

    /// <summary>Index of the R peak closest to a time within a window, the earlier of two; −1 when there is none.</summary>
    public int Closest(long timeNs, long windowNs)
    {
        int after = FirstAtOrAfter(timeNs);
        int best = -1;
        long distance = windowNs + 1;
        if (after > 0 && timeNs - _beats[after - 1].TimeNs < distance)
        {
            best = FirstAtOrAfter(_beats[after - 1].TimeNs);
            distance = timeNs - _beats[best].TimeNs;
        }

        return after < _count && _beats[after].TimeNs - timeNs < distance ? after : best;
    }
}
