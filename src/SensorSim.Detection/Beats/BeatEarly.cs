// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Side stage: wide humps that come early after a usual beat, and whether they come as early as the one before.</summary>
/// <remarks>
/// An ectopic beat without a pause leaves the rhythm as it is, as an artefact does, so rhythm alone cannot tell the two. But it is wide, about as
/// high as a beat, and keeps its distance from the beat before it; artefacts are seldom all of this, and come anywhere. A T wave keeps its distance
/// too, but comes after every beat. With a pause the early interval and the pause last as long as two usual ones.
/// Input: candidates, distances in working samples (9 bits).
/// Product: none.
/// Accumulator: none.
/// Worst case: a distance above 2^15 − 1 working samples is no early one and is not kept.
/// Output: whether to believe one in spite of doubt.
/// </remarks>
public struct BeatEarly
{
    // After so many beats in a row it is what follows every beat.
    private const int MostInRow = 3;
    private const int WavesInRow = 2;

    // Two and a half times what is no beat.
    private const int ClearHalves = 5;

    // No usual interval is so many medians long: a beat was missed there.
    private const int MostMedians = 3;

    private short _coupling;
    private short _wave;
    private short _early;
    private short _pair;
    private short _sinceUsual;
    private byte _row;
    private byte _waveRow;
    private bool _hasWide;
    private bool _isAfterUsual;
    private bool _isPair;

    /// <summary>By how much the latest beat, a wide one, came too early [working samples]: its pause may last so much longer. Else 0.</summary>
    public readonly int EarlyBy => _early;

    /// <summary>Forgets everything.</summary>
    public void Forget() => this = default;

    /// <summary>The run ends: what comes next follows no beat.</summary>
    public void Restart()
    {
        _isAfterUsual = false;
        _hasWide = false;
        _isPair = false;
        _early = 0;
        _sinceUsual = 0;
    }

    /// <summary>Whether a place so long after an early wide beat is where the usual beat comes if that one has no pause.</summary>
    /// <param name="rhythm">Intervals.</param>
    /// <param name="since">How long ago the early one was [working samples].</param>
    public readonly bool IsOnTime(in BeatRhythm rhythm, int since) => _early > 0 && rhythm.IsUsual(since + _sinceUsual);

    /// <summary>Whether a place comes early after a usual beat: before seven eighths of a usual interval.</summary>
    /// <param name="rhythm">Intervals.</param>
    /// <param name="since">How long ago the latest beat was [working samples].</param>
    public readonly bool IsEarly(in BeatRhythm rhythm, int since)
    {
        int usual = UsualOf(rhythm);
        return _isAfterUsual && since < usual - Shift.Floor(usual, 3);
    }

    /// <summary>Looks at a candidate that is unlike the usual beats.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="levels">Heights of beats.</param>
    /// <param name="rhythm">Intervals.</param>
    /// <param name="since">How long ago the latest beat was [working samples].</param>
    /// <param name="c">The candidate.</param>
    /// <param name="isWave">Whether it may be a wave after a beat.</param>
    /// <param name="isNew">Whether it is wide, early and high enough, but not where the one before was.</param>
    /// <returns>Whether it is where the one before was.</returns>
    public bool Look(in BeatWindows w, in BeatLevels levels, in BeatRhythm rhythm, int since, in BeatCandidate c, bool isWave, out bool isNew)
    {
        isNew = false;
        int median = UsualOf(rhythm);
        if (!_isAfterUsual || rhythm.Count < Word8.Length || median > short.MaxValue
            || since < w.Refractory || since >= median - Shift.Floor(median, 3) || BeatTemplate.SpreadOf(c.Slopes) <= w.WideSpread)
        {
            return false;
        }

        // A sixteenth of the interval: three times what couplings scatter by.
        int near = Shift.Floor(median, 4);
        bool isWaveAgain = Sat.Abs32(since - _wave) <= near;
        if (isWave || c.Height <= levels.Threshold || (isWaveAgain && _waveRow >= WavesInRow))
        {
            _waveRow = (byte)(!isWaveAgain ? 0 : _waveRow < WavesInRow ? _waveRow + 1 : _waveRow);
            _wave = (short)since;
            return false;
        }

        // From half of a beat to five quarters, and clear of the noise.
        int half = levels.HalfSignal;
        if (c.Height < half || c.Height < ClearHalves * (long)levels.HalfNoise || Shift.Floor(c.Height, 1) > half + Shift.Floor(half, 2))
        {
            return false;
        }

        bool isSame = Sat.Abs32(since - _coupling) <= near;
        _coupling = (short)since;
        _hasWide = true;
        isNew = !isSame;
        return isSame && _row < MostInRow;
    }

    /// <summary>A beat was found.</summary>
    /// <param name="rhythm">Intervals before it.</param>
    /// <param name="since">How long after the one before [working samples]; 0 when that is not known.</param>
    /// <param name="isUsual">Whether it is like the usual beats, or at least no wider than they are.</param>
    /// <param name="isDoubtful">Whether it was found by looking back and is unlike the usual beats.</param>
    public void Beat(in BeatRhythm rhythm, int since, bool isUsual, bool isDoubtful)
    {
        int sum = _sinceUsual + since;
        _sinceUsual = sum > short.MaxValue ? short.MaxValue : (short)sum;
        if (isDoubtful)
        {
            return;
        }

        int usual = UsualOf(rhythm);
        bool isEarly = !isUsual && usual <= short.MaxValue >> 1 && IsEarly(rhythm, since);
        _early = isEarly ? (short)((2 * usual) - rhythm.Median - since) : (short)0;
        if (isUsual)
        {
            _row = (byte)(!_hasWide ? 0 : _row < MostInRow ? _row + 1 : _row);
            _hasWide = false;

            // An interval without one that is much shorter: they no longer come with pauses.
            _pair = _isPair ? _sinceUsual : _sinceUsual < _pair - Shift.Floor(_pair, 2) ? (short)0 : _pair;
            _sinceUsual = 0;
        }

        _isPair = !isUsual && _isAfterUsual;
        _isAfterUsual = isUsual;
    }

    /// <summary>The median interval; half of two usual beats with a wide one between, where early beats and false ones in their pauses have made the median shorter.</summary>
    private readonly int UsualOf(in BeatRhythm rhythm)
    {
        int half = Shift.Floor(_pair, 1);
        return half > rhythm.Median && half < MostMedians * rhythm.Median ? half : rhythm.Median;
    }
}
