// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Expectations;

/// <summary>Pairs the marks of two detectors: equal ones, those of the same thing that differ, and those that only one of them gave.</summary>
/// <remarks>
/// Equal means every field, values that mean nothing apart. Of what is left, marks of one channel and kind whose places are at most 150 ms
/// apart are the same thing, nearest first come; what finds no partner for 12 s is given up. Constant memory.
/// </remarks>
internal sealed class MarkPairs
{
    /// <summary>Marks of each side that may wait for a partner; beyond, the oldest is given up early.</summary>
    public const int Capacity = 1024;

    private const long WindowNs = 150_000_000;
    private const int WaitingSeconds = 12;

    private readonly StreamFormat _format;
    private readonly Action<MarkDifference> _onDifference;
    private readonly PendingMarks _expected = new(Capacity);
    private readonly PendingMarks _given = new(Capacity);

    /// <summary>Creates an empty pairing.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="onDifference">Told each difference.</param>
    public MarkPairs(StreamFormat format, Action<MarkDifference> onDifference)
    {
        _format = format;
        _onDifference = onDifference;
    }

    public long EqualCount { get; private set; }

    public long DifferentCount { get; private set; }

    public long OnlyExpectedCount { get; private set; }

    public long OnlyGivenCount { get; private set; }

    public void AddExpected(in Mark mark)
    {
        MakeRoom(_expected, isExpected: true);
        _expected.Add(mark);
    }

    public void AddGiven(in Mark mark)
    {
        MakeRoom(_given, isExpected: false);
        _given.Add(mark);
    }

    /// <summary>Pairs what can be paired, and gives up what waited too long.</summary>
    /// <param name="tick">Tick that both have been handed samples up to; <see cref="long.MaxValue"/> at the end.</param>
    public void Settle(long tick)
    {
        TakeEqual();
        TakeDifferent();
        long before = tick == long.MaxValue ? tick : tick - (WaitingSeconds * _format.Clock.TicksPerSecond);
        GiveUp(_expected, before, isExpected: true);
        GiveUp(_given, before, isExpected: false);
        _expected.Close();
        _given.Close();
    }

    // Both usually come in the same order, so the first one that is still there is the one.
    private void TakeEqual()
    {
        int first = 0;
        for (int g = 0; g < _given.Count; g++)
        {
            for (int e = first; e < _expected.Count; e++)
            {
                if (!_expected.IsTaken(e) && AreEqual(_expected[e], _given[g]))
                {
                    _expected.Take(e);
                    _given.Take(g);
                    EqualCount++;
                    break;
                }
            }

            while (first < _expected.Count && _expected.IsTaken(first))
            {
                first++;
            }
        }
    }

    private void TakeDifferent()
    {
        for (int g = 0; g < _given.Count; g++)
        {
            int nearest = _given.IsTaken(g) ? -1 : NearestTo(_given[g]);
            if (nearest >= 0)
            {
                _expected.Take(nearest);
                _given.Take(g);
                DifferentCount++;
                _onDifference(new MarkDifference(_expected[nearest], _given[g]));
            }
        }
    }

    private int NearestTo(in Mark given)
    {
        int nearest = -1;
        long least = WindowNs * _format.Channels[given.Channel].RateHz * 256 / 1_000_000_000;
        for (int e = 0; e < _expected.Count; e++)
        {
            Mark expected = _expected[e];
            long apart = Math.Abs(expected.Position256 - given.Position256);
            if (!_expected.IsTaken(e) && expected.Channel == given.Channel && expected.Kind == given.Kind && (nearest < 0 ? apart <= least : apart < least))
            {
                nearest = e;
                least = apart;
            }
        }

        return nearest;
    }

    private void GiveUp(PendingMarks marks, long beforeTick, bool isExpected)
    {
        for (int i = 0; i < marks.Count; i++)
        {
            if (!marks.IsTaken(i) && marks[i].EmittedTick < beforeTick)
            {
                GiveUp(marks, i, isExpected);
            }
        }
    }

    private void GiveUp(PendingMarks marks, int index, bool isExpected)
    {
        marks.Take(index);
        OnlyExpectedCount += isExpected ? 1 : 0;
        OnlyGivenCount += isExpected ? 0 : 1;
        _onDifference(isExpected ? new MarkDifference(marks[index], null) : new MarkDifference(null, marks[index]));
    }

    private void MakeRoom(PendingMarks marks, bool isExpected)
    {
        if (!marks.IsFull)
        {
            return;
        }

        // Most often all of them have their partners already.
        TakeEqual();
        TakeDifferent();
        _expected.Close();
        _given.Close();
        if (marks.IsFull)
        {
            GiveUp(marks, 0, isExpected);
            marks.Close();
        }
    }

    private static bool AreEqual(in Mark a, in Mark b) => Meaningful(a) == Meaningful(b);

    private static Mark Meaningful(in Mark mark) => mark with
    {
        ValueMilli = mark.HasValue ? mark.ValueMilli : 0,
        PairedSample = mark.PairedChannel == Mark.None ? 0 : mark.PairedSample,
        PairedFraction256 = mark.PairedChannel == Mark.None ? (byte)0 : mark.PairedFraction256,
    };
}
