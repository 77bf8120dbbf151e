// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Beat or not, by the six rules of docs/detection-beats.md; places, heights, likenesses and intervals in doubles.</summary>
internal sealed class BeatJudgeTwin
{
    private readonly BeatRhythmTwin _rhythm;
    private readonly BeatDoubtTwin _doubt = new();
    private readonly BeatEarlyTwin _early;
    private readonly BeatWindows _windows;
    private readonly BeatLevelsTwin _levels;
    private BeatCandidateTwin? _pending;
    private BeatCandidateTwin? _missed;
    private BeatCandidateTwin? _last;
    private bool _isPendingLike;
    private double _missedScore;
    private double _lookBackAt = double.PositiveInfinity;

    public BeatJudgeTwin(BeatWindows windows, BeatLevelsTwin heights)
    {
        (_windows, _levels, _rhythm) = (windows, heights, new BeatRhythmTwin());
        _early = new BeatEarlyTwin(windows, heights, _rhythm);
    }

    public BeatMemoryTwin Memory { get; } = new();

    /// <summary>The doubt, 0 to 64.</summary>
    public int Doubt => _doubt.Value;

    /// <summary>Beats in the order in which they were decided on.</summary>
    public List<BeatCandidateTwin> Beats { get; } = [];

    public void Forget()
    {
        Memory.Forget();
        _doubt.Forget();
        _early.Forget();
        _missed = null;
    }

    public void Add(BeatCandidateTwin c)
    {
        bool isHigh = c.Height > _levels.Threshold;
        bool isLearning = Memory.IsLearning;
        bool isLike = !isLearning && Memory.IsLike(c);
        (bool isAgain, bool isNew) = isLearning || isLike || _last is null || Memory.UsualSpread > _windows.WideSpread
            ? (false, false) : _early.Look(SinceLast(c), c, IsAfterwave(c, isStrange: true));
        bool isKin = IsTrustedKin(c) && !(isNew && _doubt.IsHigh);
        bool isKnown = isLearning ? isHigh : isLike || isAgain || (isHigh && isKin);
        if (SinceLast(c) < _windows.Refractory)
        {
            _levels.AddNoise(c.Height);
            return;
        }

        // Rule 3: in doubt even a known shape has to be very like, at its usual size and on time; else it waits, or is left out.
        if (isKnown && !isLearning && !isAgain && _doubt.IsHigh && !isKin)
        {
            bool isEarly = _rhythm.Count == 8 && SinceLast(c) < 0.875 * _rhythm.Median && !_early.IsOnTime(SinceLast(c));
            bool isSure = Memory.IsSure(c);
            if (isEarly && !isSure)
            {
                _doubt.AddDropped();
                Remember(c);
                return;
            }

            if (isEarly || !isSure)
            {
                Hold(c, isLike: true);
                return;
            }
        }

        if (!isLearning && !isLike && _pending is null && IsEctopicAgain(c, isHigh))
        {
            Accept(c, isKnown: true, isEarlyAgain: true);
        }
        else if (isKnown && !IsAfterwave(c, !isLike && !isLearning))
        {
            Settle(c);
            Accept(c, isKnown: true, isAgain);
        }
        else if (IsAfterwave(c, !isKnown))
        {
            _levels.AddNoise(c.Height);
        }
        else if (isHigh && (!_doubt.IsHigh || (isNew && _doubt.OfHigh < 8)))
        {
            Hold(c, isLike: false);
        }
        else
        {
            LeaveOut(c, isHigh);
        }
    }

    public void Pass(int now)
    {
        if (_pending is not null && now - Math.Floor(_pending.Position) >= _windows.Wait)
        {
            BeatCandidateTwin waited = _pending;
            _pending = null;
            Accept(waited, _isPendingLike);
        }

        if (now >= _lookBackAt && _pending is null)
        {
            _lookBackAt += _rhythm.Mean / 2;
            if (_missed is not null && _missed.Height > _levels.LookBackThreshold)
            {
                AcceptMissed(_missed);
            }
        }
    }

    private double SinceLast(BeatCandidateTwin c) => _last is null ? double.PositiveInfinity : c.Position - _last.Position;

    // Rule 4.
    private bool IsEctopicAgain(BeatCandidateTwin c, bool isHigh) =>
        _last is not null && isHigh && c.Height > _last.Height / 2 && Memory.IsEctopic(_windows, c) && _early.IsEarly(SinceLast(c));

    private bool IsTrustedKin(BeatCandidateTwin c) => _doubt.IsKinTrusted && Memory.IsKin(c);

    private void LeaveOut(BeatCandidateTwin c, bool isHigh)
    {
        if (isHigh)
        {
            _doubt.AddDropped();
        }
        else
        {
            _doubt.AddLow();
        }

        _levels.AddNoise(c.Height > _levels.Signal ? _levels.Signal / 2 : c.Height);
        Remember(c);
    }

    // Rule 2.
    private bool IsAfterwave(BeatCandidateTwin c, bool isStrange)
    {
        BeatCandidateTwin? before = _pending ?? _last;
        if (before is null || c.Position - before.Position >= _windows.TWave)
        {
            return false;
        }

        double spread = BeatTemplateTwin.SpreadOf(before.Slopes);
        return c.Height < before.Height * (isStrange ? 0.75 : 0.875)
            && (c.Slope < before.Slope / 2 || (c.Slope / 2 < before.Slope && BeatTemplateTwin.SpreadOf(c.Slopes) > 1.5 * spread));
    }

    // Rules 5 and 6, once a known beat has come.
    private void Settle(BeatCandidateTwin c)
    {
        if (_pending is BeatCandidateTwin pending)
        {
            _pending = null;
            double apart = c.Position - pending.Position;
            bool isOnTime = _last is not null && _rhythm.IsUsual(SinceLast(c));
            if (apart < Near || (isOnTime && apart < _rhythm.Median * 7 / 16))
            {
                _doubt.AddDropped();
            }
            else
            {
                Accept(pending, _isPendingLike);
            }
        }
        else if (_missed is BeatCandidateTwin missed && _last is not null && _rhythm.IsLong(SinceLast(c) - _early.EarlyBy) && c.Position - missed.Position > _rhythm.Median / 2)
        {
            AcceptMissed(missed);
        }
    }

    private void Hold(BeatCandidateTwin c, bool isLike)
    {
        if (_pending is BeatCandidateTwin pending)
        {
            bool isBetter = isLike == _isPendingLike ? (isLike ? c.Fit > pending.Fit : c.Height > pending.Height) : isLike;
            if (c.Position - pending.Position < (isLike || _isPendingLike ? Near : _windows.Refractory))
            {
                _pending = isBetter ? c : pending;
                _isPendingLike |= isLike;
                return;
            }

            Accept(pending, _isPendingLike);
        }

        (_pending, _isPendingLike) = (c, isLike);
    }

    private double Near => _rhythm.Count == 0 ? _windows.Near : Math.Min(_windows.Near, 0.625 * _rhythm.Median);

    private void Remember(BeatCandidateTwin c)
    {
        if (c.Height <= _levels.LookBackThreshold || (_doubt.IsHigh && SinceLast(c) < 0.375 * _rhythm.Median))
        {
            return;
        }

        double score = Math.Min(c.Height, _levels.Signal) * (64 + Math.Max(0, c.Fit) + Expected(c));
        if (_missed is null || score > _missedScore)
        {
            (_missed, _missedScore) = (c, score);
        }
    }

    private double Expected(BeatCandidateTwin c)
    {
        if (_last is null || !_rhythm.IsRegular)
        {
            return 0;
        }

        double off = Math.Abs(SinceLast(c) - _rhythm.Median) / _rhythm.Median;
        return off <= 1.0 / 16 ? 255 : off <= 1.0 / 8 ? 160 : off <= 1.0 / 4 ? 64 : 0;
    }

    private void AcceptMissed(BeatCandidateTwin missed)
    {
        _missed = null;
        Accept(missed with { IsLookedBack = true }, Memory.IsLike(missed));
    }

    private void Accept(BeatCandidateTwin candidate, bool isKnown, bool isEarlyAgain = false)
    {
        BeatCandidateTwin c = candidate with { IsWide = Memory.SpreadOf(candidate) > _windows.WideSpread };
        bool isLike = Memory.IsLike(c);
        _early.Beat(SinceLast(c), !c.IsWide || isLike, c.IsLookedBack && !isLike);
        if (_last is not null)
        {
            _rhythm.Add(SinceLast(c));
        }

        Memory.Learn(_windows, c, c.IsLookedBack ? c.Height > _levels.Threshold : _doubt.Value == 0, _doubt.IsKinTrusted, isEarlyAgain);
        if (!isKnown)
        {
            _doubt.AddStrange();
        }
        else if (!Memory.IsLearning && !Memory.IsLike(c))
        {
            _doubt.AddKin();
        }
        else
        {
            _doubt.Weigh(c.Position, _rhythm, Memory.IsLearning);
        }

        _levels.AddSignal(c.Height);
        Beats.Add(c);
        (_last, _missed) = (c, null);
        _lookBackAt = _rhythm.Count == 0 ? double.PositiveInfinity : c.Position + (1.625 * _rhythm.Mean) + _early.EarlyBy + _windows.Delay + _windows.Hold;
    }
}
