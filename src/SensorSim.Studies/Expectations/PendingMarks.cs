// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Expectations;

/// <summary>Marks that wait for their counterpart, oldest first; room of stated size, from any place of which marks are taken out.</summary>
internal sealed class PendingMarks
{
    private readonly Mark[] _marks;
    private readonly bool[] _isTaken;

    public PendingMarks(int capacity)
    {
        _marks = new Mark[capacity];
        _isTaken = new bool[capacity];
    }

    public int Count { get; private set; }

    public bool IsFull => Count == _marks.Length;

    public ref readonly Mark this[int index] => ref _marks[index];

    public void Add(in Mark mark)
    {
        _marks[Count] = mark;
        _isTaken[Count] = false;
        Count++;
    }

    public bool IsTaken(int index) => _isTaken[index];

    /// <summary>Marks an entry as taken; it leaves with the next <see cref="Close"/>.</summary>
    public void Take(int index) => _isTaken[index] = true;

    /// <summary>Closes the ranks.</summary>
    public void Close()
    {
        int kept = 0;
        for (int i = 0; i < Count; i++)
        {
            if (_isTaken[i])
            {
                continue;
            }

            _marks[kept] = _marks[i];
            _isTaken[kept] = false;
            kept++;
        }

        Count = kept;
    }
}
