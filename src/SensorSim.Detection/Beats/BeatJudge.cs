// SPDX-License-Identifier: MIT
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
    private const int FitTwin = 243;
    private const int FitSure = 230;
    private const int FitMargin = 44;
    private const int SureMargin = 20;
    private const int FitLowest = 154;
    private const int FitHighest = 212;
    private const int DoubtLimit = 8;
    private const int DoubtMost = 64;
    private const int DoubtStep = 24;
    private const int DoubtSmall = 4;
    private const int StrangeRun = 6;

    private BeatTemplate _usual;
    private BeatTemplate _other;
    private BeatRhythm _rhythm;
    private BeatCandidate _pending;
    private BeatCandidate _missed;
    private BeatCandidate _first;
    private BeatCandidate _second;
    private bool _isPending;
    private bool _isPendingLike;
    private bool _isMissed;
    private int _missedScore;
    private int _ready;
    private bool _hasBridged;
    private long _last256;
    private long _lastKnown256;
    private int _lastSlope;
    private int _lastHeight;
    private bool _hasLast;
    private bool _hasKnown;
    private int _strange;
    private int _dropped;
    private int _low;
    private int _kin;
    private int _trust;
    private int _strangeRun;
    private int _doubt;
    private int _fitLevel;
    private long _lookBackAt;

    /// <summary>Usual beats.</summary>
    public readonly BeatTemplate Usual => _usual;

    /// <summary>The other kind of beats.</summary>
    public readonly BeatTemplate Other => _other;

    /// <summary>Intervals.</summary>
    public readonly BeatRhythm Rhythm => _rhythm;

    /// <summary>Doubt about what looks strange.</summary>
    public readonly int Doubt => _doubt;

    /// <summary>The stream breaks off: what was held is dropped, what was learned stays.</summary>
    public void Restart()
    {
        _isPending = false;
        _isMissed = false;
        _hasLast = false;
        _hasKnown = false;
        _ready = 0;
        _strange = 0;
        _dropped = 0;
        _low = 0;
        _hasBridged = false;
        _lookBackAt = long.MaxValue;
    }

    /// <summary>A gap was bridged: a beat may be lost in it.</summary>
    public void Bridge() => _hasBridged = true;

    /// <summary>Levels were learned anew: sizes may be others.</summary>
    public void Forget()
    {
        _usual = default;
        _other = default;
        _doubt = 0;
        _strangeRun = 0;
        _isMissed = false;
        _fitLevel = 0;
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

    /// <summary>Whether a candidate looks like the usual beats.</summary>
    /// <param name="c">The candidate.</param>
    public readonly bool IsLike(in BeatCandidate c)
    {
        int limit = Shift.Floor(_fitLevel, 4) - FitMargin;
        limit = limit < FitLowest ? FitLowest : limit > FitHighest ? FitHighest : limit;
        return c.Fit >= limit && c.Size > _usual.Size >> 1 && c.Size >> 1 < _usual.Size;
    }

    /// <summary>Whether it looks like the other kind that has come before.</summary>
    /// <param name="c">The candidate.</param>
    public readonly bool IsKin(in BeatCandidate c) =>
        _other.Count > 0 && (_trust > 0 || _doubt < DoubtLimit) && c.OtherFit >= (_other.Count == 1 ? FitTwin : FitSure) && c.OtherSize > _other.Size - (_other.Size >> 2)
        && c.OtherSize < _other.Size + (_other.Size >> 1);

    /// <summary>Locates the complex of a hump and says what it looks like.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="ecg">Held ECG.</param>
    /// <param name="locator">Finds complexes.</param>
    /// <param name="middle">Middle of the hump.</param>
    /// <param name="last">Newest working sample.</param>
    /// <param name="c">Gets everything but the height.</param>
    public readonly void Look(in BeatWindows w, in Word256 ecg, ref BeatLocator locator, long middle, long last, ref BeatCandidate c)
    {
        locator.Locate(w, ecg, middle, last);
        Describe(w, ecg, locator, ref c);
        if (_usual.Count < 3 || c.Fit >= FitSure || (c.OtherFit >= FitSure && IsKin(c)))
        {
            return;
        }

        BeatShape shape = default;
        shape.Survey(w, ecg, (int)(middle & (Word256.Length - 1)));
        int fit = shape.Find(w, _usual);
        if (fit > c.Fit + 8)
        {
            BeatLocator near = locator;
            near.LocateNear(w, ecg, middle + shape.At, last);
            BeatCandidate other = c;
            Describe(w, ecg, near, ref other);
            if (IsLike(other) || other.Fit > c.Fit)
            {
                c = other;
            }
        }
    }

    /// <summary>Judges a candidate.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="levels">Heights of beats and noise.</param>
    /// <param name="c">The candidate.</param>
    public void Add(in BeatWindows w, ref BeatLevels levels, in BeatCandidate c)
    {
        bool isLearning = _usual.Count < 3;
        bool isLike = !isLearning && IsLike(c);
        bool isKnown = isLearning ? c.Height > levels.Threshold : isLike || (c.Height > levels.Threshold && IsKin(c));
        if (_hasLast && Since(c, _last256) < w.Refractory)
        {
            levels.AddNoise(c.Height);
            return;
        }

        if (isKnown && !isLearning && _doubt >= DoubtLimit && !IsKin(c))
        {
            bool isEarly = _hasLast && _rhythm.Count == 8 && Since(c, _last256) < _rhythm.Median - (_rhythm.Median >> 3);
            if (isEarly && !IsSure(c))
            {
                _dropped++;
                Remember(levels, c);
                return;
            }

            if (isEarly || !IsSure(c))
            {
                Hold(w, ref levels, c, isLike: true);
                return;
            }
        }

        if (isKnown && (isLike || !IsAfterwave(w, c)))
        {
            Settle(w, ref levels, c);
            Accept(w, ref levels, c, isKnown: true);
            return;
        }

        if (IsAfterwave(w, c))
        {
            levels.AddNoise(c.Height);
            return;
        }

        if (c.Height > levels.Threshold && _doubt < DoubtLimit)
        {
            Hold(w, ref levels, c, isLike: false);
            return;
        }

        _dropped += c.Height > levels.Threshold ? 1 : 0;
        _low += c.Height > levels.Threshold ? 0 : 1;
        levels.AddNoise(c.Height >> 1 > levels.HalfSignal ? levels.HalfSignal : c.Height);
        Remember(levels, c);
    }

    /// <summary>Time passes: what has waited long enough is a beat; when a beat is overdue, the best of what was left out is.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="levels">Heights.</param>
    /// <param name="now">Newest working sample.</param>
    /// <returns>Whether a beat is ready.</returns>
    public bool Pass(in BeatWindows w, ref BeatLevels levels, long now)
    {
        if (_isPending && now - (_pending.Position256 >> 8) >= w.Wait)
        {
            _isPending = false;
            Accept(w, ref levels, _pending, isKnown: _isPendingLike);
        }

        if (now >= _lookBackAt && !_isPending)
        {
            _lookBackAt += _rhythm.Mean >> 1;
            if (_isMissed && _missed.Height > levels.LookBackThreshold)
            {
                _isMissed = false;
                _missed.Quality = 64;
                Accept(w, ref levels, _missed, isKnown: IsLike(_missed));
            }
        }

        return _ready > 0;
    }

    /// <summary>The end: what waits is told.</summary>
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

    private readonly void Describe(in BeatWindows w, in Word256 ecg, in BeatLocator locator, ref BeatCandidate c)
    {
        c.Position256 = locator.Position256;
        c.Deviation = locator.Deviation;
        c.Slope = locator.Slope;
        c.Quality = 255;
        c.Scale = BeatShape.Read(w, ecg, (int)((c.Position256 + 128) >> 8) & (Word256.Length - 1), out c.Slopes);
        int energy = BeatTemplate.Energy(c.Slopes);
        int dot = _usual.Dot(c.Slopes);
        c.Fit = _usual.Fit(dot, energy);
        c.Size = _usual.SizeOf(dot, c.Scale);
        int otherDot = _other.Dot(c.Slopes);
        c.OtherFit = _other.Fit(otherDot, energy);
        c.OtherSize = _other.SizeOf(otherDot, c.Scale);
    }

    private static int Since(in BeatCandidate c, long place256) => (int)((c.Position256 - place256) >> 8);

    private readonly bool IsAfterwave(in BeatWindows w, in BeatCandidate c)
    {
        if (_isPending)
        {
            return Since(c, _pending.Position256) < w.TWave && c.Slope < _pending.Slope >> 1 && IsLower(c, _pending.Height);
        }

        return _hasLast && Since(c, _last256) < w.TWave && c.Slope < _lastSlope >> 1 && IsLower(c, _lastHeight);
    }

    private static bool IsLower(in BeatCandidate c, int height) => c.Height < height - (height >> 2);

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
                _dropped++;
            }
            else
            {
                Accept(w, ref levels, _pending, isKnown: _isPendingLike);
            }
        }
        else if (_isMissed && _hasLast && _rhythm.IsLong(Since(c, _last256)) && Since(c, _missed.Position256) > _rhythm.Median >> 1)
        {
            _isMissed = false;
            _missed.Quality = 64;
            Accept(w, ref levels, _missed, isKnown: IsLike(_missed));
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

    private readonly bool IsSure(in BeatCandidate c) =>
        c.Fit >= Shift.Floor(_fitLevel, 4) - SureMargin && c.Size > _usual.Size - (_usual.Size >> 2) && c.Size < _usual.Size + (_usual.Size >> 2) + (_usual.Size >> 4);

    private void Remember(in BeatLevels levels, in BeatCandidate c)
    {
        if (c.Height <= levels.LookBackThreshold)
        {
            return;
        }

        if (_doubt >= DoubtLimit && _hasLast && Since(c, _last256) < (_rhythm.Median >> 1) - (_rhythm.Median >> 3))
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

    private void Accept(in BeatWindows w, ref BeatLevels levels, in BeatCandidate candidate, bool isKnown)
    {
        BeatCandidate c = candidate;
        if (_hasLast)
        {
            int rr = Since(c, _last256);
            c.IsAfterLoss = _hasBridged && _rhythm.IsLong(rr);
            if (!c.IsAfterLoss)
            {
                _rhythm.Add(rr);
            }
        }

        _hasBridged = false;

        int spread = IsLike(c) ? _usual.Spread : IsKin(c) ? _other.Spread : BeatTemplate.SpreadOf(c.Slopes);
        c.IsWide = spread > w.WideSpread;
        Learn(c, isProven: c.Quality == 64);
        Weigh(c, isKnown);
        levels.AddSignal(c.Height);
        if (_ready == 0)
        {
            _first = c;
        }
        else
        {
            _second = c;
        }

        _ready++;
        _last256 = c.Position256;
        _lastSlope = c.Slope;
        _lastHeight = c.Height;
        _hasLast = true;
        _isMissed = false;
        int mean = _rhythm.Mean;
        _lookBackAt = mean == 0 ? long.MaxValue : (c.Position256 >> 8) + mean + (mean >> 1) + (mean >> 3) + w.Delay + w.Hold;
    }

    /// <summary>Keeps the two kinds of beats.</summary>
    private void Learn(in BeatCandidate c, bool isProven)
    {
        if (_usual.Count == 0)
        {
            _usual.Begin(c.Slopes, c.Scale);
            return;
        }

        bool isLike = _usual.Count < 3 ? c.Fit >= 180 : IsLike(c);
        if (isLike)
        {
            _usual.Add(c.Slopes, c.Size);
            _fitLevel += _fitLevel == 0 ? c.Fit << 4 : c.Fit - Shift.Floor(_fitLevel, 4);
            _strangeRun = 0;
            return;
        }

        if (_other.Count > 0 && (_trust > 0 || _doubt < DoubtLimit) && c.OtherFit >= 205)
        {
            _other.Add(c.Slopes, c.OtherSize);
        }
        else if (_other.Count < 2 || _doubt == 0 || isProven)
        {
            _other.Begin(c.Slopes, c.Scale);
        }

        _strangeRun++;
        if (_other.Count > _usual.Count || (_strangeRun >= StrangeRun && _other.Count >= 4))
        {
            (_usual, _other) = (_other, _usual);
            _strangeRun = 0;
            _fitLevel = 0;
        }
        else if (_strangeRun >= 2 * StrangeRun)
        {
            Forget();
            _usual.Begin(c.Slopes, c.Scale);
        }
    }

    /// <summary>Does what came between two known beats belong there? An artefact leaves the rhythm as it is, an early beat seldom does.</summary>
    private void Weigh(in BeatCandidate c, bool isKnown)
    {
        if (!isKnown)
        {
            _strange++;
            return;
        }

        if (_usual.Count >= 3 && !IsLike(c))
        {
            _kin++;
            return;
        }

        if (_hasKnown && _usual.Count >= 3)
        {
            int rr = Since(c, _lastKnown256);
            bool isFull = _rhythm.Count == 8 && rr <= _rhythm.Median + (_rhythm.Median >> 3);
            if (_kin > 0)
            {
                _trust += _rhythm.IsLong(rr) ? 1 : -2;
                _trust = _trust > 4 ? 4 : _trust < -4 ? -4 : _trust;
            }

            if (_strange + _dropped + _low == 0)
            {
                _doubt -= _doubt > 0 ? 1 : 0;
            }
            else if (_rhythm.IsLong(rr))
            {
                _doubt -= _doubt > DoubtSmall ? DoubtSmall : _doubt;
            }
            else if (_dropped > 0 || (_strange > 0 && isFull))
            {
                _doubt += DoubtStep;
            }
            else if (_low > 0)
            {
                _doubt += DoubtSmall;
            }

            _doubt = _doubt > DoubtMost ? DoubtMost : _doubt;
        }

        _kin = 0;
        _hasKnown = true;
        _lastKnown256 = c.Position256;
        _strange = 0;
        _dropped = 0;
        _low = 0;
    }
}
