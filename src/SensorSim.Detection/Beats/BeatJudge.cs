// SPDX-License-Identifier: MIT
using System.Diagnostics.CodeAnalysis;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Sixth stage, once per hump: beat or not, by height, shape, and what came before and after.</summary>
/// <remarks>
/// Input: candidates.
/// Product: none.
/// Accumulator: 32 bits, places 64.
/// Worst case: none.
/// Output: beats in the order of their R peaks, at most two wait to be told.
/// </remarks>
public struct BeatJudge
{
    /// <summary>Quality of a beat that was found by looking back.</summary>
    internal const byte LookedBack = 64;

    private BeatMemory _memory;
    private BeatDoubt _doubt;
    private BeatRhythm _rhythm;
    private BeatEarly _early;
    private BeatCandidate _pending;
    private BeatCandidate _missed;
    private BeatCandidate _first;
    private BeatCandidate _second;
    private bool _isPending;
    private bool _isPendingLike;
    private bool _isMissed;
    private bool _hasLast;
    private bool _hasBridged;
    private int _missedScore;
    private int _ready;
    private int _lastSlope;
    private int _lastHeight;
    private int _lastSpread;
    private long _last256;
    private long _lookBackAt;

    /// <summary>What beats look like.</summary>
    [UnscopedRef]
    public readonly ref readonly BeatMemory Memory => ref _memory;

    /// <summary>The stream breaks off: what was held is dropped, what was learned stays.</summary>
    public void Restart()
    {
        _isPending = false;
        _isMissed = false;
        _hasLast = false;
        _ready = 0;
        _doubt.Restart();
        _early.Restart();
        _hasBridged = false;
        _lookBackAt = long.MaxValue;
    }

    /// <summary>A gap was bridged: a beat may be lost in it.</summary>
    public void Bridge() => _hasBridged = true;

    /// <summary>Levels were learned anew: sizes may be others.</summary>
    public void Forget()
    {
        _memory.Forget();
        _doubt.Forget();
        _early.Forget();
        _isMissed = false;
    }

    /// <summary>Hands out the next beat.</summary>
    /// <param name="beat">The beat.</param>
    /// <returns>Whether there is one.</returns>
    public bool TryTake(out BeatCandidate beat)
    {
        beat = _first;
        if (_ready == 0)
        {
            return false;
        }

        _first = _second;
        _ready--;
        return true;
    }

    /// <summary>Judges a candidate.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="levels">Heights of beats and noise.</param>
    /// <param name="c">The candidate.</param>
    public void Add(in BeatWindows w, ref BeatLevels levels, in BeatCandidate c)
    {
        bool isLearning = _memory.IsLearning;
        bool isLike = !isLearning && _memory.IsLike(c);
        bool isNewEarly = false;
        bool isEarlyAgain = !isLearning && !isLike && LookEarly(w, levels, c, out isNewEarly);
        bool isKin = IsTrustedKin(c) && !(isNewEarly && _doubt.IsHigh);
        bool isKnown = isLearning ? c.Height > levels.Threshold : isLike || isEarlyAgain || (c.Height > levels.Threshold && isKin);
        if (_hasLast && Since(c, _last256) < w.Refractory)
        {
            levels.AddNoise(c.Height);
            return;
        }

        if (isKnown && !isLearning && !isEarlyAgain && _doubt.IsHigh && !isKin)
        {
            bool isEarly = _hasLast && _rhythm.Count == 8 && Since(c, _last256) < _rhythm.Median - (_rhythm.Median >> 3)
                && !_early.IsOnTime(_rhythm, Since(c, _last256));
            if (isEarly && !_memory.IsSure(c))
            {
                _doubt.AddDropped();
                Remember(levels, c);
                return;
            }

            if (isEarly || !_memory.IsSure(c))
            {
                Hold(w, ref levels, c, isLike: true);
                return;
            }
        }

        if (!isLearning && !isLike && !_isPending && IsEctopicAgain(w, levels, c))
        {
            Accept(w, ref levels, c, isKnown: true, isEarlyAgain: true);
            return;
        }

        if (isKnown && !IsAfterwave(w, c, !isLike && !isLearning))
        {
            Settle(w, ref levels, c);
            Accept(w, ref levels, c, isKnown: true, isEarlyAgain);
            return;
        }

        if (IsAfterwave(w, c, isStrange: !isKnown))
        {
            levels.AddNoise(c.Height);
            return;
        }

        // An early wide one that is clear of the noise is believed where only low humps have raised the doubt.
        bool isBelieved = !_doubt.IsHigh || (isNewEarly && !_doubt.IsHighOfHigh);
        if (c.Height > levels.Threshold && isBelieved)
        {
            Hold(w, ref levels, c, isLike: false);
            return;
        }

        if (c.Height > levels.Threshold)
        {
            _doubt.AddDropped();
        }
        else
        {
            _doubt.AddLow();
        }

        levels.AddNoise(c.Height >> 1 > levels.HalfSignal ? levels.HalfSignal : c.Height);
        Remember(levels, c);
    }

    /// <summary>The working sample from which on <see cref="Pass"/> may do something; before it, it may be left out.</summary>
    /// <param name="w">Lengths.</param>
    public readonly long QuietUntil(in BeatWindows w) => _ready > 0 ? 0 : _isPending ? (_pending.Position256 >> 8) + w.Wait : _lookBackAt;

    /// <summary>Time passes: what has waited long enough is a beat; when a beat is overdue, the best of what was left out is.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="levels">Heights.</param>
    /// <param name="now">Newest working sample.</param>
    /// <returns>Whether a beat is ready.</returns>
    public bool Pass(in BeatWindows w, ref BeatLevels levels, long now)
    {
        if (_isPending && now - (_pending.Position256 >> 8) >= w.Wait)
        {
            Close(w, ref levels);
        }

        if (now >= _lookBackAt && !_isPending)
        {
            LookBack(w, ref levels);
        }

        return _ready > 0;
    }

    /// <summary>What waits is a beat: its time is over, or the end has come.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="levels">Heights.</param>
    public void Close(in BeatWindows w, ref BeatLevels levels)
    {
        if (_isPending)
        {
            _isPending = false;
            Accept(w, ref levels, _pending, isKnown: _isPendingLike);
        }
    }

    private void LookBack(in BeatWindows w, ref BeatLevels levels)
    {
        _lookBackAt += _rhythm.Mean >> 1;
        if (_isMissed && _missed.Height > levels.LookBackThreshold)
        {
            AcceptMissed(w, ref levels);
        }
    }

    private void AcceptMissed(in BeatWindows w, ref BeatLevels levels)
    {
        _isMissed = false;
        _missed.Quality = LookedBack;
        Accept(w, ref levels, _missed, isKnown: _memory.IsLike(_missed));
    }

    private readonly bool IsTrustedKin(in BeatCandidate c) => _doubt.IsKinTrusted && _memory.IsKin(c);

    private bool LookEarly(in BeatWindows w, in BeatLevels levels, in BeatCandidate c, out bool isNew)
    {
        isNew = false;
        return _hasLast && _memory.UsualSpread <= w.WideSpread
            && _early.Look(w, levels, _rhythm, Since(c, _last256), c, IsAfterwave(w, c, isStrange: true), out isNew);
    }

    // Early after a usual beat, and of an ectopic kind that has come before: neither doubt nor the T wave that it may lie on speaks against it.
    private readonly bool IsEctopicAgain(in BeatWindows w, in BeatLevels levels, in BeatCandidate c) =>
        _hasLast && c.Height > levels.Threshold && c.Height > _lastHeight >> 1
        && _memory.IsEctopic(w, c) && _early.IsEarly(_rhythm, Since(c, _last256));

    private static int Since(in BeatCandidate c, long place256) => BeatRhythm.Apart(c.Position256, place256);

    private readonly bool IsAfterwave(in BeatWindows w, in BeatCandidate c, bool isStrange)
    {
        if (_isPending)
        {
            return Since(c, _pending.Position256) < w.TWave
                && IsAfterwave(c, _pending.Slope, _pending.Height, BeatTemplate.SpreadOf(_pending.Slopes), isStrange);
        }

        return _hasLast && Since(c, _last256) < w.TWave && IsAfterwave(c, _lastSlope, _lastHeight, _lastSpread, isStrange);
    }

    /// <summary>Lower than the beat before and less than half as steep; or lower and much wider, for a plain QRS may be no steeper than its T.</summary>
    private static bool IsAfterwave(in BeatCandidate c, int slope, int height, int spread, bool isStrange)
    {
        return c.Height < height - (isStrange ? height >> 2 : height >> 3)
            && (c.Slope < slope >> 1 || (c.Slope >> 1 < slope && BeatTemplate.SpreadOf(c.Slopes) > spread + (spread >> 1)));
    }

    /// <summary>A known beat has come: what does that say about the strange one that waits?</summary>
    private void Settle(in BeatWindows w, ref BeatLevels levels, in BeatCandidate c)
    {
        if (_isPending)
        {
            _isPending = false;
            int apart = Since(c, _pending.Position256);
            bool isOnTime = _hasLast && _rhythm.IsUsual(Since(c, _last256));
            if (apart < NearOf(w) || (isOnTime && apart < (_rhythm.Median >> 1) - (_rhythm.Median >> 4)))
            {
                _doubt.AddDropped();
            }
            else
            {
                Accept(w, ref levels, _pending, isKnown: _isPendingLike);
            }
        }
        else if (_isMissed && _hasLast && _rhythm.IsLong(Since(c, _last256) - _early.EarlyBy) && Since(c, _missed.Position256) > _rhythm.Median >> 1)
        {
            AcceptMissed(w, ref levels);
        }
    }

    private void Hold(in BeatWindows w, ref BeatLevels levels, in BeatCandidate c, bool isLike)
    {
        if (_isPending)
        {
            bool isBetter = isLike == _isPendingLike ? (isLike ? c.Fit > _pending.Fit : c.Height > _pending.Height) : isLike;
            if (Since(c, _pending.Position256) < (isLike || _isPendingLike ? NearOf(w) : w.Refractory))
            {
                _pending = isBetter ? c : _pending;
                _isPendingLike |= isLike;
                return;
            }

            Accept(w, ref levels, _pending, isKnown: _isPendingLike);
        }

        _pending = c;
        _isPending = true;
        _isPendingLike = isLike;
    }

    private readonly int NearOf(in BeatWindows w)
    {
        int part = (_rhythm.Median >> 1) + (_rhythm.Median >> 3);
        return part != 0 && part < w.Near ? part : w.Near;
    }

    private void Remember(in BeatLevels levels, in BeatCandidate c)
    {
        if (c.Height <= levels.LookBackThreshold)
        {
            return;
        }

        if (_doubt.IsHigh && _hasLast && Since(c, _last256) < (_rhythm.Median >> 1) - (_rhythm.Median >> 3))
        {
            return;
        }

        int height = c.Height >> 1 > levels.HalfSignal ? levels.HalfSignal : c.Height >> 1;
        int score = Shift.Floor(height, 10) * (64 + (c.Fit > 0 ? c.Fit : 0) + Expected(c));
        if (!_isMissed || score > _missedScore)
        {
            _missed = c;
            _missedScore = score;
            _isMissed = true;
        }
    }

    /// <summary>How near to where a beat is expected, 0 to 255.</summary>
    private readonly int Expected(in BeatCandidate c)
    {
        if (!_hasLast || !_rhythm.IsRegular)
        {
            return 0;
        }

        int off = Sat.Abs32(Since(c, _last256) - _rhythm.Median);
        int m = _rhythm.Median;
        return off <= m >> 4 ? 255 : off <= m >> 3 ? 160 : off <= m >> 2 ? 64 : 0;
    }

    private void Accept(in BeatWindows w, ref BeatLevels levels, in BeatCandidate candidate, bool isKnown, bool isEarlyAgain = false)
    {
        BeatCandidate c = candidate;
        c.IsWide = _memory.SpreadOf(c) > w.WideSpread;
        int rr = _hasLast ? Since(c, _last256) : 0;
        bool isLikeUsual = _memory.IsLike(c);
        _early.Beat(_rhythm, rr, !c.IsWide || isLikeUsual, c.Quality == LookedBack && !isLikeUsual);
        if (_hasLast)
        {
            c.IsAfterLoss = _hasBridged && _rhythm.IsLong(rr);
            if (!c.IsAfterLoss)
            {
                _rhythm.Add(rr);
            }
        }

        _hasBridged = false;
        bool mayBegin = c.Quality == LookedBack ? c.Height > levels.Threshold : _doubt.Value == 0;
        _memory.Learn(c, rr, mayBegin, _doubt.IsKinTrusted, isEarlyAgain);
        Weigh(c, isKnown);
        levels.AddSignal(c.Height);
        if (_ready == 0)
        {
            _first = c;
            _ready = 1;
        }
        else
        {
            _second = c;
            _ready = 2;
        }

        _last256 = c.Position256;
        _lastSlope = c.Slope;
        _lastHeight = c.Height;
        _lastSpread = BeatTemplate.SpreadOf(c.Slopes);
        _hasLast = true;
        _isMissed = false;
        int mean = _rhythm.Mean;
        _lookBackAt = mean == 0 ? long.MaxValue : (c.Position256 >> 8) + mean + (mean >> 1) + (mean >> 3) + _early.EarlyBy + w.Delay + w.Hold;
    }

    private void Weigh(in BeatCandidate c, bool isKnown)
    {
        if (!isKnown)
        {
            _doubt.AddStrange();
        }
        else if (!_memory.IsLearning && !_memory.IsLike(c))
        {
            _doubt.AddKin();
        }
        else
        {
            _doubt.Weigh(c.Position256, _rhythm, _memory.IsLearning);
        }
    }
}
