// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <summary>Which rate of the light is believed, and which of all is the fused one.</summary>
internal partial struct JointPath
{
    // Length of a window of the spectrum.
    private const int WindowS = 8;

    // A rate of the spectrum vouches for that of the pulses for five seconds, one of the ECG for 15 s, within a sixteenth; that of the ECG for
    // two minutes within an eighth.
    private const int ConfirmsForS = 5;
    private const int KnowsForS = 15;
    private const int RemembersForS = 120;
    private const int NearMilliBpm = 4000;
    private const int NearShift = 4;

    // After so long without a rate of the ECG those of the light set the pace of the fused one.
    private const int PaceForS = 3;

    // Trust of the spectrum: by itself, and when the ECG says the same.
    private const byte TrustAlone = 87;
    private const byte TrustWithEcg = 40;

    // The rate of clear beats has this trust even when its intervals differ.
    private const byte SureBeats = 128;

    // Beats outrun pulses by more than an eighth of their rate; narrow ones alone are no more than pulses, or an eighth more.
    private const int Eighths = 8;
    private const int EighthShift = 3;
    private const int OutrunEighths = 1;
    private const int NarrowEighths = 1;

    // Beats that came within so long say what a window of the light held: the same rate within 2 bpm or 1/20, half of what it may be off.
    private const int CountsForS = 3;
    private const int SameMilliBpm = 2000;
    private const int SameParts = 20;
    private const int EdgeMilliBpm = 5000;
    private const int StaleMilliBpm = 3000;

    // A foot comes about 3/16 s after its beat, an eighth more or less: windows from foot to foot hold the beats that are so near.
    private const int FootAfter256 = 48;
    private const int FootMargin256 = 32;

    private void TakeSpectrum(in Found found, long now, ref AnswerList answers)
    {
        long since256 = (found.Tick * 256) - _spectrum.Ticks256;
        _spectrum = new Reading(ReadingKind.HeartRatePulse, found.RateMilli, found.Quality, found.Tick * 256, _clock.TicksPerSecond * 256 * WindowS);
        _isSpectrumWaiting = IsCounted(now);
        if (!_isSpectrumWaiting || since256 > _clock.TicksPerSecond * 256 * CountsForS)
        {
            _beatRateBefore = 0;
            _beatRateEarlier = 0;
        }

        if (!_isSpectrumWaiting)
        {
            bool isNear = !IsFresh(_shownEcg, now, RemembersForS)
                || (IsFresh(_shownEcg, now, KnowsForS) ? IsNear(_spectrum, _shownEcg.ValueMilli, SameMilliBpm, NearShift + 1)
                : IsNear(_spectrum, _shownEcg.ValueMilli, StaleMilliBpm, NearShift));
            GiveSpectrum(isNear && found.IsTrusted && !IsOutrun(_spectrum, now, OutrunEighths) && !IsDenied(_spectrum), now, ref answers);
        }
    }

    // The beat after the end of the window shows which beats were in it.
    private void TakeWaitingSpectrum(long place256, long now, ref AnswerList answers)
    {
        if (!_isSpectrumWaiting || place256 < _spectrum.Ticks256 - (_clock.TicksPerSecond * FootAfter256))
        {
            return;
        }

        _isSpectrumWaiting = false;
        byte trust = IsFresh(_shownEcg, now, ConfirmsForS) ? TrustWithEcg : TrustAlone;
        GiveSpectrum(IsOfBeats(_spectrum) && IsCounted(now) && _spectrum.Quality >= trust, now, ref answers);
    }

    // While the pulses themselves may be counted, they are.
    private void GiveSpectrum(bool isSure, long now, ref AnswerList answers)
    {
        if (isSure && Gates.Pulse.IsOpenForRate && !Gates.Pulse.IsOpen)
        {
            _shownSpectrum = _spectrum;
            Give(_shownSpectrum, _light, _lightStep, now, ref answers);
            GiveFusedOfLight(now, ref answers);
        }
    }

    // While the ECG gives a rate, its beats set the pace of the fused one: it does not go to and fro between the two.
    private void GiveFusedOfLight(long now, ref AnswerList answers)
    {
        if (!IsFresh(_shownEcg, now, PaceForS))
        {
            GiveFused(now, ref answers);
        }
    }

    // One signal alone needs no fusing.
    private void GiveFused(long now, ref AnswerList answers)
    {
        if (Gates.HasJoint && _fused.Update(_shownEcg, _shownPulse, _shownSpectrum, now * 256))
        {
            // It stands on the signal that it is from: beats of the one are not where pulses of the other are.
            bool isEcg = _fused.Latest.Ticks256 == _shownEcg.Ticks256 && _fused.Latest.WindowTicks256 == _shownEcg.WindowTicks256;
            Give(_fused.Latest, isEcg ? ChannelRole.Ecg : _light, isEcg ? _ecgStep : _lightStep, now, ref answers);
        }
    }

    // Clear beats that come faster than the pulses, gate or not, by more than some eighths of their rate: some have no pulse, and the rate of
    // the light is not the heart's.
    private readonly bool IsOutrun(in Reading rate, long now, int eighths)
    {
        Reading beats = _ecgRate.Latest;
        return _isClear && beats.Quality >= SureBeats && IsFresh(beats, now, ConfirmsForS)
            && beats.ValueMilli - rate.ValueMilli > NearMilliBpm && beats.ValueMilli - rate.ValueMilli > Shift.Floor(rate.ValueMilli * eighths, EighthShift);
    }

    // Clear beats of its window, gate or not, are more than its pulses, and the wide ones are those too many: they have no pulse, or one too
    // weak to be found. Where narrow ones are too many they may be noise.
    private readonly bool IsOutnumbered(in Reading rate, long now)
    {
        int beatRate = _isClear && _wideBeats != 0 && IsGoingOn(now) ? BeatRateSince(0, rate, FootMargin256, out _) : 0;
        if (IsOutnumbered(rate, beatRate))
        {
            return true;
        }

        // Only eight intervals of beats are kept. Where the first of them begins with a wide beat, and after the begin of the light's window, that beat belongs to
        // the window too: nine beats for eight pulses.
        long begin256 = rate.Ticks256 - rate.WindowTicks256 - (_clock.TicksPerSecond * (FootAfter256 - FootMargin256));
        bool isCut = beatRate > 0 && (_wideBeats & OldestBeat) != 0 && _ecgRate.BeginsAfter(begin256);
        return isCut && IsOutnumbered(rate, rate.ValueMilli + Shift.Floor(rate.ValueMilli, EighthShift));
    }

    private readonly bool IsOutnumbered(in Reading rate, int beatRate) =>
        beatRate > rate.ValueMilli && !IsSame(rate, beatRate) && AreWideBeatsTooMany(rate, beatRate, NarrowEighths);

    // The narrow ones of the latest nine beats come no faster than pulses, but for some eighths of their rate: one wide beat more or less; and
    // at least half as fast: where nearly all are wide the pulses are theirs.
    private readonly bool AreWideBeatsTooMany(in Reading rate, int beatRate, int eighths)
    {
        int wide = BitOperations.PopCount(_wideBeats);
        int narrow8 = beatRate * (LatestBeats - wide) * Eighths;
        int pulses = rate.ValueMilli * LatestBeats;
        return wide > 0 && narrow8 <= pulses * (Eighths + eighths) && narrow8 >= pulses * (Eighths / 2);
    }

    // Clear beats in its window say something else, gate or not.
    private readonly bool IsDenied(in Reading rate) => _isClear && !IsLike(rate, BeatRateOf(rate, 0, out _));

    // A rate of the light has to be near that of the ECG: of the same beats while it counts them, else the nearer the younger it is. Without
    // one, that of the spectrum, if sure, speaks.
    private readonly bool IsConfirmed(in Reading rate, long now)
    {
        if (IsOutrun(rate, now, OutrunEighths) || IsOutnumbered(rate, now))
        {
            return false;
        }

        if (!IsFresh(_shownEcg, now, RemembersForS))
        {
            return !(IsFresh(_spectrum, now, ConfirmsForS) && _spectrum.Quality >= TrustAlone) || IsNear(rate, _spectrum.ValueMilli, NearMilliBpm, NearShift);
        }

        int beatRate = IsCounted(now) ? BeatRateOf(rate, FootMargin256, out _) : 0;
        return beatRate > 0 ? IsSame(rate, beatRate) : IsNear(rate, _shownEcg.ValueMilli, NearMilliBpm, IsFresh(_shownEcg, now, KnowsForS) ? NearShift : NearShift - 1);
    }

    // While the gate of the ECG is open its beats say what a window of the light held.
    private readonly bool IsCounted(long now) => HasEcg && Gates.Ecg.Reason == GateReason.None && IsGoingOn(now);

    private readonly bool IsGoingOn(long now) => (now * 256) - _ecgRate.LastTicks256 < _clock.TicksPerSecond * 256 * CountsForS;

    // Rate of the beats that belong to the window of a rate of the light; feet come a fifth of a second after them.
    private readonly int BeatRateOf(in Reading rate, int margin256, out bool isSure) =>
        BeatRateSince(Gates.Ecg.TrustedFromTicks256, rate, margin256, out isSure);

    private readonly int BeatRateSince(long from256, in Reading rate, int margin256, out bool isSure)
    {
        long margin = _clock.TicksPerSecond * margin256;
        long end256 = rate.Ticks256 - (_clock.TicksPerSecond * FootAfter256);
        long begin256 = end256 - rate.WindowTicks256 - margin;
        return _ecgRate.RateWithin(begin256 > from256 ? begin256 : from256, end256 + margin, out isSure);
    }

    // Eight intervals may be the latest half of the window only: what they were at the two windows before stands for the rest.
    private bool IsOfBeats(in Reading rate)
    {
        int beatRate = BeatRateOf(rate, 0, out bool isSure);
        bool isOf = isSure && beatRate > 0 && IsClose(rate, beatRate) && IsLike(rate, _beatRateBefore) && IsLike(rate, _beatRateEarlier);
        _beatRateEarlier = _beatRateBefore;
        _beatRateBefore = beatRate;
        return isOf;
    }

    private static bool IsLike(in Reading rate, int beatRate) => beatRate == 0 || IsNear(rate, beatRate, NearMilliBpm, NearShift - 1);

    private static bool IsSame(in Reading rate, int beatRate)
    {
        int difference = Sat.Abs32(rate.ValueMilli - beatRate);
        return difference <= SameMilliBpm || (long)SameParts * difference <= beatRate;
    }

    // An early beat at the edge of a window adds a beat to it and less than an interval: up to 4 bpm at any rate, and at slow ones little
    // of the tenth is left.
    private static bool IsClose(in Reading rate, int beatRate)
    {
        int difference = Sat.Abs32(rate.ValueMilli - beatRate);
        return difference <= SameMilliBpm || (IsSame(rate, beatRate) && 10L * (difference + EdgeMilliBpm) <= beatRate);
    }

    private readonly bool IsFresh(in Reading reading, long now, int forS) =>
        reading.Quality > 0 && (now * 256) - reading.Ticks256 < _clock.TicksPerSecond * 256 * forS;

    // Windows are not quite the same: some bpm, or a sixteenth and more.
    private static bool IsNear(in Reading one, int otherMilli, int leastMilli, int shift)
    {
        int difference = Sat.Abs32(one.ValueMilli - otherMilli);
        return difference <= leastMilli || difference <= Shift.Floor(otherMilli, shift);
    }
}
