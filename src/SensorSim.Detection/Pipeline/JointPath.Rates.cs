// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <summary>Which rate of the light is believed, and which of all is the fused one.</summary>
internal partial struct JointPath
{
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

    // Clear beats that come faster than the pulses, gate or not: some have no pulse, and the rate of the light is not the heart's.
    private readonly bool IsOutrun(in Reading rate, long now)
    {
        Reading beats = _ecgRate.Latest;
        return _isClear && beats.Quality >= SureBeats && IsFresh(beats, now, ConfirmsForS)
            && beats.ValueMilli - rate.ValueMilli > NearMilliBpm && beats.ValueMilli - rate.ValueMilli > Shift.Floor(rate.ValueMilli, NearShift - 1);
    }

    private readonly bool IsConfirmed(in Reading rate, long now) => !IsOutrun(rate, now) &&
        (IsFresh(_shownEcg, now, RemembersForS) ? IsNearEcg(rate, now)
        : !(IsFresh(_spectrum, now, ConfirmsForS) && _spectrum.Quality >= TrustAlone) || IsNear(rate, _spectrum, NearShift));

    private readonly bool IsNearEcg(in Reading rate, long now) => IsNear(
        rate, _shownEcg, IsFresh(_shownEcg, now, ConfirmsForS) ? NearShift : IsFresh(_shownEcg, now, KnowsForS) ? NearShift - 1 : NearShift - 2);

    private readonly bool IsFresh(in Reading reading, long now, int forS) =>
        reading.Quality > 0 && (now * 256) - reading.Ticks256 < _clock.TicksPerSecond * 256 * forS;

    // Windows are not quite the same: 4 bpm, or a sixteenth and more.
    private static bool IsNear(in Reading one, in Reading other, int shift)
    {
        int difference = Sat.Abs32(one.ValueMilli - other.ValueMilli);
        return difference <= NearMilliBpm || difference <= Shift.Floor(other.ValueMilli, shift);
    }
}
