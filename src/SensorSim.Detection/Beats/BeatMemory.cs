// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Fifth stage, once per hump: what the usual beats and one other kind look like, and how like them a candidate is.</summary>
/// <remarks>
/// Input: held ECG, middle of a hump.
/// Product: see <see cref="BeatTemplate"/>.
/// Accumulator: 32 bits; level of the likeness Q12.4.
/// Worst case: see the template.
/// Output: candidates; likeness in 1/256.
/// </remarks>
public struct BeatMemory
{
    // Likeness is a correlation in 1/256. Clean beats of one kind reach 250 and more, in muscle noise of 0 dB some 210; transients of
    // electrodes seldom pass 150. The limit follows the level of the beats, within these two ends.
    private const int FitTwin = 243;
    private const int FitSure = 230;
    private const int FitMargin = 44;
    private const int FitLowest = 154;
    private const int FitHighest = 212;
    private const int FitAtStart = 180;
    private const int FitOther = 205;
    private const int SureMargin = 20;
    private const int StrangeRun = 6;

    // A kind that has come so often is known: what is more like it than like the usual beats, by so much, is none of those.
    private const int Known = 3;
    private const int OtherMargin = 16;
    private const int Young = 8;

    // So many times is no chance; more than the most need not be known.
    private const int Clear = 2;
    private const int MostLate = 8;

    private BeatTemplate _usual;
    private BeatTemplate _other;

    // Q12.4, at most 256.
    private short _fitLevel;

    // Interval before the latest beat if that was a usual one; how much oftener the other kind came late after such a beat than early.
    private short _before;
    private sbyte _late;
    private byte _strangeRun;

    /// <summary>Whether the usual beats are not known yet.</summary>
    public readonly bool IsLearning => _usual.Count < 3;

    /// <summary>How far the slopes of the usual beats reach.</summary>
    public readonly int UsualSpread => _usual.Spread;

    /// <summary>Forgets both kinds.</summary>
    public void Forget() => this = default;

    /// <summary>Whether a candidate looks like the usual beats: shape, and size within a factor of two.</summary>
    /// <param name="c">The candidate.</param>
    public readonly bool IsLike(in BeatCandidate c)
    {
        int limit = Shift.Floor(_fitLevel, 4) - FitMargin;
        limit = limit < FitLowest ? FitLowest : limit > FitHighest ? FitHighest : limit;
        bool isOther = _other.Count > Known && c.OtherFit > c.Fit + OtherMargin;
        return c.Fit >= limit && !isOther && c.Size > _usual.Size >> 1 && c.Size >> 1 < _usual.Size;
    }

    /// <summary>Whether it looks like them so much that nothing else need be asked: size from 3/4 to 21/16.</summary>
    /// <param name="c">The candidate.</param>
    public readonly bool IsSure(in BeatCandidate c) =>
        c.Fit >= Shift.Floor(_fitLevel, 4) - SureMargin && c.Size > _usual.Size - (_usual.Size >> 2)
        && c.Size < _usual.Size + (_usual.Size >> 2) + (_usual.Size >> 4);

    /// <summary>Whether it looks like the other kind, size from 3/4 to 3/2.</summary>
    /// <param name="c">The candidate.</param>
    public readonly bool IsKin(in BeatCandidate c) =>
        _other.Count > 0 && c.OtherFit >= (_other.Count == 1 ? FitTwin : FitSure) && IsOfOtherSize(c);

    /// <summary>
    /// Whether it looks like the other kind as surely as usual beats look like theirs, and that one is known and ectopic: wide, but less so than T waves,
    /// whose slopes reach half as far again as what is wide.
    /// </summary>
    /// <param name="w">Lengths.</param>
    /// <param name="c">The candidate.</param>
    public readonly bool IsEctopic(in BeatWindows w, in BeatCandidate c)
    {
        int limit = Shift.Floor(_fitLevel, 4) - SureMargin;
        limit = limit > FitSure ? FitSure : limit < FitAtStart ? FitAtStart : limit;
        return _other.Count >= Known && _other.Spread > w.WideSpread && _other.Spread <= w.WideSpread + (w.WideSpread >> 1)
            && c.OtherFit >= limit && IsOfOtherSize(c);
    }

    /// <summary>How far the slopes of its kind reach; of its own where it belongs to none.</summary>
    /// <param name="c">The candidate.</param>
    public readonly int SpreadOf(in BeatCandidate c) =>
        IsLike(c) ? _usual.Spread : IsKin(c) ? _other.Spread : BeatTemplate.SpreadOf(c.Slopes);

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

    /// <summary>
    /// A beat was found: it adds to its kind. What belongs to none begins the other kind anew, if it may or that one is hardly known. Six of the
    /// other kind in a row make it the usual one; twelve that are neither, and everything is learned anew. While few have come the narrow kind is
    /// the usual one, whichever came first, if the wide one comes early and the narrow one late: spikes of pacemakers and artefacts are narrow too,
    /// but do not.
    /// </summary>
    /// <param name="c">The beat.</param>
    /// <param name="since">How long after the beat before [working samples]; 0 when that is not known.</param>
    /// <param name="mayBegin">Whether another kind may begin with it.</param>
    /// <param name="isKinTrusted">Whether what looks like the other kind counts.</param>
    /// <param name="isEarlyAgain">Whether it came where the other kind comes.</param>
    public void Learn(in BeatCandidate c, int since, bool mayBegin, bool isKinTrusted, bool isEarlyAgain)
    {
        if (_usual.Count == 0)
        {
            _usual.Begin(c.Slopes, c.Scale);
            return;
        }

        bool isLike = _usual.Count < 3 ? c.Fit >= FitAtStart : IsLike(c);
        Weigh(since, isLike);
        if (isLike)
        {
            _usual.Add(c.Slopes, c.Size);
            _fitLevel = (short)(_fitLevel == 0 ? c.Fit << 4 : _fitLevel + c.Fit - Shift.Floor(_fitLevel, 4));
            _strangeRun = 0;
            return;
        }

        int fit = isEarlyAgain || (isKinTrusted && _other.Count >= Known) ? FitAtStart : isKinTrusted ? FitOther : int.MaxValue;
        if (_other.Count > 0 && c.OtherFit >= fit)
        {
            _other.Add(c.Slopes, c.OtherSize);
        }
        else if (mayBegin || (_other.Count < 2 && c.Quality > BeatJudge.LookedBack))
        {
            _other.Begin(c.Slopes, c.Scale);
        }

        _strangeRun++;
        bool isMore = _other.Count > _usual.Count && (_other.Spread >> 1 <= _usual.Spread || _late > -Clear);
        if (IsUsualEctopic() || isMore || (_strangeRun >= StrangeRun && _other.Count >= 4))
        {
            (_usual, _other) = (_other, _usual);
            _strangeRun = 0;
            _fitLevel = 0;
            _late = (sbyte)-_late;
        }
        else if (_strangeRun >= 2 * StrangeRun)
        {
            Forget();
            _usual.Begin(c.Slopes, c.Scale);
        }
    }

    private readonly bool IsOfOtherSize(in BeatCandidate c) =>
        c.OtherSize > _other.Size - (_other.Size >> 2) && c.OtherSize < _other.Size + (_other.Size >> 1);

    // Bigeminy may begin with an early beat: of two young kinds of like size the one of half the spread is the usual one.
    private readonly bool IsUsualEctopic() =>
        _usual.Count < Young && _other.Count >= Known && _other.Size >> 1 < _usual.Size && _other.Spread < _usual.Spread >> 1 && _late >= Clear;

    // Whether the other kind came late or early: half as long again after a usual beat as that one after the beat before, or the reverse.
    private void Weigh(int since, bool isUsual)
    {
        if (!isUsual && since > 0 && _before > 0)
        {
            int later = since > _before + (_before >> 1) ? 1 : _before > since + (since >> 1) ? -1 : 0;
            int late = _late + later;
            _late = (sbyte)(late > MostLate ? MostLate : late < -MostLate ? -MostLate : late);
        }

        _before = isUsual && since <= short.MaxValue ? (short)since : (short)0;
    }

    private readonly void Describe(in BeatWindows w, in Word256 ecg, in BeatLocator locator, ref BeatCandidate c)
    {
        c.Position256 = locator.Position256;
        c.Deviation = locator.Deviation;
        c.Slope = locator.Slope;
        c.Quality = 255;
        c.Scale = BeatShape.Read(w, ecg, (int)((c.Position256 + 128) >> 8) & (Word256.Length - 1), out c.Slopes);
        uint root = IntegerRoot.Floor((uint)BeatTemplate.Energy(c.Slopes));
        int dot = _usual.Dot(c.Slopes);
        c.Fit = _usual.Fit(dot, root);
        c.Size = _usual.SizeOf(dot, c.Scale);
        int otherDot = _other.Dot(c.Slopes);
        c.OtherFit = _other.Fit(otherDot, root);
        c.OtherSize = _other.SizeOf(otherDot, c.Scale);
    }
}
