// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Readings;

/// <summary>The latest true values of one kind in order of time; the oldest make room for the newest.</summary>
internal sealed class TimedValues
{
    private readonly int _capacity;
    private long[] _timesNs;
    private double[] _values;
    private double[] _sorted;
    private int _count;

    public TimedValues(int capacity, int firstRoom = Room.First)
    {
        _capacity = capacity;
        int room = Math.Min(capacity, firstRoom);
        _timesNs = new long[room];
        _values = new double[room];
        _sorted = new double[room];
    }

    /// <summary>Values seen so far, forgotten ones included.</summary>
    public long Total { get; private set; }

    /// <summary>Nothing older than this is known any more [ns].</summary>
    public long KnownFromNs { get; private set; } = long.MinValue;

    /// <summary>Takes the room of the whole capacity now.</summary>
    public void Reserve() => Resize(_capacity);

    public void Add(long timeNs, double value)
    {
        Total++;
        if (_count == _timesNs.Length && _count < _capacity)
        {
            Resize(Room.After(_count, _capacity));
        }

        if (_count == _timesNs.Length)
        {
            // A quarter at once, so that moving is rare.
            int gone = Math.Max(1, _count / 4);
            KnownFromNs = _timesNs[gone - 1] + 1;
            _count -= gone;
            Array.Copy(_timesNs, gone, _timesNs, 0, _count);
            Array.Copy(_values, gone, _values, 0, _count);
        }

        int at = _count++;
        while (at > 0 && _timesNs[at - 1] > timeNs)
        {
            _timesNs[at] = _timesNs[at - 1];
            _values[at] = _values[at - 1];
            at--;
        }

        _timesNs[at] = timeNs;
        _values[at] = value;
    }

    /// <summary>Mean of the values from one time to another, both included; false when there is none.</summary>
    public bool TryMean(long beginNs, long endNs, out double mean)
    {
        int first = FirstAtOrAfter(beginNs);
        int after = FirstAtOrAfter(endNs + 1);
        double sum = 0;
        for (int i = first; i < after; i++)
        {
            sum += _values[i];
        }

        mean = sum / (after - first);
        return after > first;
    }

    /// <summary>The latest value at or before a time and not older than some time; false when there is none.</summary>
    public bool TryLatest(long timeNs, long oldestNs, out double value)
    {
        int last = FirstAtOrAfter(timeNs + 1) - 1;
        bool isThere = last >= 0 && _timesNs[last] >= timeNs - oldestNs;
        value = isThere ? _values[last] : double.NaN;
        return isThere;
    }

    /// <summary>Median of the values from one time to another, both included; of two in the middle their mean; false when there is none.</summary>
    public bool TryMedian(long beginNs, long endNs, out double median)
    {
        int first = FirstAtOrAfter(beginNs);
        int count = FirstAtOrAfter(endNs + 1) - first;
        median = double.NaN;
        if (count <= 0)
        {
            return false;
        }

        Span<double> sorted = _sorted.AsSpan(0, count);
        _values.AsSpan(first, count).CopyTo(sorted);
        sorted.Sort();
        median = (sorted[(count - 1) / 2] + sorted[count / 2]) / 2;
        return true;
    }

    private void Resize(int room)
    {
        Array.Resize(ref _timesNs, room);
        Array.Resize(ref _values, room);
        Array.Resize(ref _sorted, room);
    }

    private int FirstAtOrAfter(long timeNs)
    {
        int low = 0;
        int high = _count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_timesNs[middle] < timeNs)
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
