// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Readings;
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Rhythm;

/// <summary>Compares a detector's flag of irregular rhythm with the classes of the true beats, in constant memory.</summary>
/// <remarks>
/// Truth: the time between two neighbouring R peaks is irregular when both beats are conducted out of atrial fibrillation or flutter, regular when neither
/// is, and not judged when only one is, when a class is unknown, or when they are more than 5 s apart. The flag stands from the emission of its mark on.
/// </remarks>
internal sealed class RhythmScorer
{
    private const int IntervalCapacity = 1024;
    private const int FlagCapacity = 256;
    private const long LongestIntervalNs = 5_000_000_000;

    private readonly UsableTime _usable;
    private readonly EventRing<(long Begin, long End, bool? IsIrregular)> _intervals = new(IntervalCapacity);
    private readonly (long Time, bool IsOn)[] _changes = new (long, bool)[FlagCapacity];
    private readonly EpisodeTally _episodes = new();
    private int _changeHead;
    private int _changeCount;
    private long? _lastBeatNs;
    private BeatClass _lastLabel;
    private bool _isOn;
    private bool _isFinished;

    public RhythmScorer(UsableTime usable) => _usable = usable;

    /// <summary>Intervals and changes that had to be judged early for lack of room.</summary>
    public long EarlyClosingCount { get; private set; }

    /// <summary>Whether there is anything to say: the detector gave a flag, or truth has an arrhythmia.</summary>
    public bool HasAnything { get; private set; }

    public long IrregularNs { get; private set; }

    public long FlaggedIrregularNs { get; private set; }

    public long RegularNs { get; private set; }

    public long FlaggedRegularNs { get; private set; }

    public EpisodeTally Episodes => _episodes;

    public void AddBeat(long timeNs, BeatClass label)
    {
        HasAnything |= label == BeatClass.AtrialArrhythmia;
        if (_lastBeatNs is long last)
        {
            if (timeNs <= last)
            {
                return;
            }

            if (_intervals.Count == IntervalCapacity)
            {
                EarlyClosingCount++;
                JudgeFirst();
            }

            _intervals.Add((last, timeNs, StateOf(_lastLabel, label, timeNs - last)));
        }

        (_lastBeatNs, _lastLabel) = (timeNs, label);
    }

    public void AddFlag(bool isOn, long emittedNs)
    {
        HasAnything = true;
        if (_changeCount == FlagCapacity)
        {
            EarlyClosingCount++;
            TakeChange();
        }

        _changes[(_changeHead + _changeCount) % FlagCapacity] = (emittedNs, isOn);
        _changeCount++;
    }

    public void CloseUpTo(long horizonNs)
    {
        while (_intervals.Count > 0 && _intervals[0].End <= horizonNs)
        {
            JudgeFirst();
        }

        if (horizonNs == long.MaxValue && !_isFinished)
        {
            _isFinished = true;
            _episodes.Finish();
        }
    }

    private static bool? StateOf(BeatClass first, BeatClass second, long lengthNs)
    {
        if (first == BeatClass.None || second == BeatClass.None || lengthNs > LongestIntervalNs)
        {
            return null;
        }

        bool isFirst = first == BeatClass.AtrialArrhythmia;
        return isFirst == (second == BeatClass.AtrialArrhythmia) ? isFirst : null;
    }

    private void JudgeFirst()
    {
        _intervals.TryTake(out (long Begin, long End, bool? IsIrregular) interval);
        (long begin, long end, bool? state) = interval;
        long at = begin;
        while (at < end)
        {
            while (_changeCount > 0 && _changes[_changeHead].Time <= at)
            {
                TakeChange();
            }

            long next = _changeCount > 0 ? Math.Min(end, _changes[_changeHead].Time) : end;
            Count(at, next, state);
            at = next;
        }
    }

    private void Count(long begin, long end, bool? state)
    {
        long length = _usable.LengthNs(begin, end);
        _episodes.Add(begin, length, state, _isOn);
        if (state == true)
        {
            IrregularNs += length;
            FlaggedIrregularNs += _isOn ? length : 0;
        }
        else if (state == false)
        {
            RegularNs += length;
            FlaggedRegularNs += _isOn ? length : 0;
        }
    }

    private void TakeChange()
    {
        bool isOn = _changes[_changeHead].IsOn;
        _changeHead = (_changeHead + 1) % FlagCapacity;
        _changeCount--;
        _isOn = isOn;
    }
}
