// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Beats;

/// <summary>Side stage: how far what looks strange may be believed.</summary>
/// <remarks>
/// An artefact comes between two beats and leaves their interval as it is. An early beat of another origin is followed by a pause; one
/// without a pause is rare, and looks like the one before it. So each usual beat that ends a usual interval with something strange inside
/// raises the doubt, each pause after something strange lowers it, and each quiet interval lets it fade.
/// Input: what was seen between two usual beats.
/// Product: none.
/// Accumulator: 32 bits, small counts.
/// Worst case: none.
/// Output: doubt, 0 to 64; from 8 on nothing strange is a beat unless one is missing.
/// </remarks>
public struct BeatDoubt
{
    private const int Limit = 8;
    private const int Most = 64;
    private const int Step = 24;
    private const int SmallStep = 4;
    private const int MostTrust = 4;

    private long _last256;
    private bool _hasLast;
    private int _strange;
    private int _dropped;
    private int _low;
    private int _kin;
    private int _trust;

    /// <summary>The doubt.</summary>
    public int Value { get; private set; }

    /// <summary>Whether strange candidates are not believed.</summary>
    public readonly bool IsHigh => Value >= Limit;

    /// <summary>Whether what looks like the other kind is believed: always without doubt, else if pauses have followed it.</summary>
    public readonly bool IsKinTrusted => _trust > 0 || !IsHigh;

    /// <summary>Forgets the doubt.</summary>
    public void Forget() => Value = 0;

    /// <summary>The run ends: what was seen since the last beat says nothing.</summary>
    public void Restart()
    {
        _hasLast = false;
        _strange = 0;
        _dropped = 0;
        _low = 0;
        _kin = 0;
    }

    /// <summary>Something strange was high enough for a beat and was left out.</summary>
    public void AddDropped() => _dropped++;

    /// <summary>Something strange stood out and was too low.</summary>
    public void AddLow() => _low++;

    /// <summary>Something strange was taken for a beat.</summary>
    public void AddStrange() => _strange++;

    /// <summary>A beat of the other kind was found.</summary>
    public void AddKin() => _kin++;

    /// <summary>A usual beat was found: weighs what came since the one before.</summary>
    /// <param name="position256">Its R peak.</param>
    /// <param name="rhythm">Intervals.</param>
    /// <param name="isLearning">Whether the usual beats are still being learned.</param>
    public void Weigh(long position256, in BeatRhythm rhythm, bool isLearning)
    {
        if (_hasLast && !isLearning)
        {
            int rr = (int)((position256 - _last256) >> 8);
            Trust(rhythm.IsLong(rr));
            bool isFull = rhythm.Count == 8 && rr <= rhythm.Median + (rhythm.Median >> 3);
            int change = _strange + _dropped + _low == 0 ? -1
                : rhythm.IsLong(rr) ? -SmallStep
                : _dropped > 0 || (_strange > 0 && isFull) ? Step
                : _low > 0 ? SmallStep : 0;
            Value += change;
            Value = Value > Most ? Most : Value < 0 ? 0 : Value;
        }

        Restart();
        _hasLast = true;
        _last256 = position256;
    }

    private void Trust(bool isLong)
    {
        if (_kin > 0)
        {
            _trust += isLong ? 1 : -2;
            _trust = _trust > MostTrust ? MostTrust : _trust < -MostTrust ? -MostTrust : _trust;
        }
    }
}
