// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Third stage: how steep pulses have been lately, and the thresholds below it.</summary>
/// <remarks>
/// Input: 30 bits unsigned, steepest values; noise in the same format.
/// Product: by sixteenths as shifts and additions; by a UQ4.8 ratio after a change of settings, 42 bits.
/// Accumulator: 32 bits.
/// Worst case: the input itself; scaled values clip at 2^30.
/// Output: thresholds in the input's format, floor.
/// </remarks>
public struct PulseLevels
{
    private const int Highest = 1 << 30;
    private const int Steady = 4;

    private Word8 _signals;
    private int _at;
    private int _since;
    private int _refused;
    private int _refusedCount;
    private int _candidate;
    private bool _isBetween;
    private int _rippleNow;
    private int _provenRipple;
    private int _last;
    private short _more1024;

    /// <summary>Typical steepest value: the third highest of the last eight; 0 while nothing is learned.</summary>
    public int Signal { get; private set; }

    /// <summary>The last one that four pulses in a row have stood for.</summary>
    public int Proven { get; private set; }

    /// <summary>Deviation of the slope by noise.</summary>
    public int Noise { get; private set; }

    /// <summary>Typical steepest value of the wave that follows a pulse, dicrotic notch to diastolic peak; 0 when it is small.</summary>
    public int Ripple { get; private set; }

    /// <summary>Threshold until 420 ms after a pulse, when the diastolic wave rises: 5/4 of it, 1/8 of a pulse and four deviations of the noise.</summary>
    /// <remarks>5/16 to 1/2 of the typical value; the upper end until two pulses have shown their diastolic wave.</remarks>
    public int Early { get; private set; }

    /// <summary>Threshold later on: 3/32, but five deviations of the noise, and those at most 5/16; 5/16 until two pulses have come.</summary>
    public int Late { get; private set; }

    /// <summary>Steeper upstrokes are no pulses of this level: four times the typical value.</summary>
    public int Limit { get; private set; }

    /// <summary>Sets how high the thresholds are, of the usual ones.</summary>
    /// <param name="percent">25 to 400.</param>
    public void SetPercent(int percent) => _more1024 = ThresholdScale.More1024(percent);

    /// <summary>Sets the level from a stretch of signal.</summary>
    /// <param name="steepest">Steepest value of the stretch.</param>
    public void Learn(int steepest)
    {
        for (int i = 0; i < Word8.Length; i++)
        {
            _signals[i] = steepest;
        }

        _since = 0;
        _refusedCount = 0;
        _rippleNow = 0;
        Ripple = 0;
        _last = 0;
        Set(steepest);
    }

    /// <summary>A pulse this steep was found.</summary>
    /// <param name="steepest">Its steepest value.</param>
    public void Add(int steepest)
    {
        _signals[_at & (Word8.Length - 1)] = steepest;
        _at++;
        _isBetween = true;

        if (IsStrong(steepest))
        {
            // The wave that followed the last strong pulse: its mean, a quarter of each new one.
            Ripple = _since <= 1 ? _rippleNow : Ripple + Shift.Round(_rippleNow - Ripple, 2);
            _rippleNow = 0;
        }

        _since = _since < Steady ? _since + 1 : Steady;
        _last = steepest;
        Set(Ranks.OfEight(_signals, 5));
        if (_since == Steady)
        {
            Proven = Signal;
            _provenRipple = Ripple;
        }
    }

    /// <summary>Whether an upstroke is at least half as steep as pulses are.</summary>
    /// <param name="steepest">Its steepest value.</param>
    public readonly bool IsStrong(int steepest) => steepest > Shift.Floor(Signal, 1);

    /// <summary>A weak upstroke came early after a pulse; so it counts whether it is told as a pulse or not.</summary>
    /// <param name="steepest">Its steepest value.</param>
    public void AddRipple(int steepest) => _rippleNow = steepest > _rippleNow ? steepest : _rippleNow;

    /// <summary>The noise has been estimated anew.</summary>
    /// <param name="noise">Deviation of the slope by noise.</param>
    public void SetNoise(int noise)
    {
        Noise = noise > Highest >> 3 ? Highest >> 3 : noise;
        Set(Signal);
    }

    /// <summary>The sensor gives more or less for the same pulse.</summary>
    /// <param name="ratio256">How much more [1/256].</param>
    public void Scale(int ratio256)
    {
        for (int i = 0; i < Word8.Length; i++)
        {
            _signals[i] = Scaled(_signals[i], ratio256);
        }

        Proven = Scaled(Proven, ratio256);
        Ripple = Scaled(Ripple, ratio256);
        _provenRipple = Scaled(_provenRipple, ratio256);
        _last = Scaled(_last, ratio256);
        Set(Scaled(Signal, ratio256));
    }

    /// <summary>An upstroke is steeper than pulses of this level may be: a step, or pulses have become larger.</summary>
    /// <remarks>
    /// The second such upstroke of about the same size may be a pulse, the third if pulses were found between. After a silence that lowered
    /// the level the first one may, when it is of the size from before. More than sixteen times the level needs six.
    /// </remarks>
    /// <param name="steepest">Its steepest value.</param>
    /// <param name="isNear">Whether the last one lies about a beat before it.</param>
    /// <returns>Whether it may be a pulse; then <see cref="Believe"/> tells what to do when it is.</returns>
    public bool Refuse(int steepest, bool isNear)
    {
        bool isAlike = isNear && IsAlike(steepest, _refused);
        _refusedCount = isAlike ? _refusedCount + 1 : 1;
        _candidate = isAlike && _refused < steepest ? _refused : steepest;
        int needed = _isBetween ? 3 : 2;
        _refused = steepest;
        _isBetween = isAlike && _isBetween;
        bool isPossible = Shift.Floor(steepest, 4) <= Signal || IsPressing;
        return (_refusedCount >= needed && isPossible) || IsFromBefore(steepest);
    }

    /// <summary>Whether so many alike were refused that their shape no longer speaks against them: six.</summary>
    public readonly bool IsPressing => _refusedCount >= 6;

    /// <summary>The refused upstroke is a pulse: the level is learned from it, or taken back to what it was.</summary>
    public void Believe()
    {
        if (!IsFromBefore(_refused))
        {
            Learn(_candidate);
            return;
        }

        int ripple = _provenRipple;
        Learn(Proven);
        Ripple = ripple;
        _rippleNow = ripple;
        _since = Steady;
    }

    /// <summary>Whether an upstroke is less than half as steep as the last refused one: near it, it may be its diastolic wave.</summary>
    /// <param name="steepest">Its steepest value.</param>
    public readonly bool IsAfterRefused(int steepest) => steepest < Shift.Floor(_refused, 1);

    private static bool IsAlike(int one, int other) => Shift.Floor(one, 1) <= other && one >= Shift.Floor(other, 1);

    private readonly bool IsFromBefore(int steepest) => Signal < Shift.Floor(Proven, 1) && IsAlike(steepest, Proven);

    private static int Scaled(int value, int ratio256)
    {
        ulong scaled = ((ulong)(uint)value * (uint)ratio256) >> 8;
        return scaled > Highest ? Highest : (int)scaled;
    }

    private void Set(int signal)
    {
        Signal = signal;
        Limit = signal == 0 || signal > Highest >> 2 ? int.MaxValue : signal << 2;
        int fourNoise = Noise << 2;
        int least = Shift.Floor(signal, 2) + Shift.Floor(signal, 4);

        // The wave after an unusually large pulse is large as well.
        int most = Shift.Floor(_last > signal ? _last : signal, 1);
        int larger = _last > signal + Shift.Floor(signal, 2) ? 1 : 2;
        int ripple = Ripple + Shift.Floor(Ripple, larger) + Shift.Floor(signal, 3) + fourNoise;
        ripple = ripple < least ? least : ripple;
        Early = ThresholdScale.Apply(ripple > most || _since < 2 ? most : ripple, _more1024);

        int late = Shift.Floor(signal, 4) + Shift.Floor(signal, 5);
        late = late < fourNoise + Noise ? fourNoise + Noise : late;
        Late = signal == 0 ? int.MaxValue : ThresholdScale.Apply(late > least || _since < 2 ? least : late, _more1024);
    }
}
