// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Expectations;

/// <summary>The latest marks of a detector; an older one makes way.</summary>
internal sealed class RecentMarks
{
    private readonly EventRing<Mark> _marks = new(1024);

    public void Add(in Mark mark)
    {
        if (_marks.Count == _marks.Capacity)
        {
            _marks.TryTake(out _);
        }

        _marks.Add(mark);
    }

    public List<Mark> Where(Func<Mark, bool> isWanted)
    {
        var found = new List<Mark>();
        for (int i = 0; i < _marks.Count; i++)
        {
            if (isWanted(_marks[i]))
            {
                found.Add(_marks[i]);
            }
        }

        return found;
    }
}
