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
    private byte _ofHigh;
    private sbyte _trust;
    private bool _hasLast;
    private bool _hasStrange;
    private bool _hasDropped;
    private bool _hasLow;
    private bool _hasKin;

    /// <summary>The doubt.</summary>
    public int Value { get; private set; }

    /// <summary>Whether strange candidates are not believed.</summary>
    public readonly bool IsHigh => Value >= Limit;

    /// <summary>Whether they would not be either had low ones not raised it; that they are there keeps it from fading all the same.</summary>
    public readonly bool IsHighOfHigh => _ofHigh >= Limit;

    /// <summary>Whether what looks like the other kind is believed: always without doubt, else if pauses have followed it.</summary>
    public readonly bool IsKinTrusted => _trust > 0 || !IsHigh;

    /// <summary>Forgets the doubt.</summary>
    public void Forget()
    {
        Value = 0;
        _ofHigh = 0;
    }

    /// <summary>The run ends: what was seen since the last beat says nothing.</summary>
    public void Restart()
    {
        _hasLast = false;
        _hasStrange = false;
        _hasDropped = false;
        _hasLow = false;
        _hasKin = false;
    }

    /// <summary>Something strange was high enough for a beat and was left out.</summary>
    public void AddDropped() => _hasDropped = true;

    /// <summary>Something strange stood out and was too low.</summary>
    public void AddLow() => _hasLow = true;

    /// <summary>Something strange was taken for a beat.</summary>
    public void AddStrange() => _hasStrange = true;

    /// <summary>A beat of the other kind was found.</summary>
    public void AddKin() => _hasKin = true;

    /// <summary>A usual beat was found: weighs what came since the one before.</summary>
    /// <param name="position256">Its R peak.</param>
    /// <param name="rhythm">Intervals.</param>
    /// <param name="isLearning">Whether the usual beats are still being learned.</param>
    public void Weigh(long position256, in BeatRhythm rhythm, bool isLearning)
    {
        if (_hasLast && !isLearning)
        {
            int rr = BeatRhythm.Apart(position256, _last256);
            Trust(rhythm.IsLong(rr));
            bool isFull = rhythm.Count == 8 && rr <= rhythm.Median + (rhythm.Median >> 3);
            bool isRaised = _hasDropped || (_hasStrange && isFull);
            int change = !_hasStrange && !_hasDropped && !_hasLow ? -1
                : rhythm.IsLong(rr) ? -SmallStep
                : isRaised ? Step : 0;
            _ofHigh = (byte)Within(_ofHigh + change);
            Value = Within(Value + (change == 0 && _hasLow ? SmallStep : change));
        }

        Restart();
        _hasLast = true;
        _last256 = position256;
    }

    private static int Within(int doubt) => doubt > Most ? Most : doubt < 0 ? 0 : doubt;

    private void Trust(bool isLong)
    {
        if (_hasKin)
        {
            int trust = _trust + (isLong ? 1 : -2);
            _trust = (sbyte)(trust > MostTrust ? MostTrust : trust < -MostTrust ? -MostTrust : trust);
        }
    }
}
