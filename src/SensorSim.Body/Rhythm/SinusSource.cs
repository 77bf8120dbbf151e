// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Rhythm;

/// <summary>Sinus rhythm with premature beats and pauses.</summary>
/// <remarks>
/// A ventricular premature beat leaves the sinus node alone: the impulse that meets it is lost, so the intervals before and after it
/// make two sinus intervals (or one, interpolated). An atrial one resets the node. Textbook rules (common practice).
/// </remarks>
internal sealed class SinusSource : RhythmSource
{
    // The ventricles are refractory till then; QRS complexes never lie on one another (common practice: some 200 to 300 ms).
    private const double ShortestCouplingSeconds = 0.25;

    private readonly SinusClock _clock;
    private readonly Ectopy _ectopy;
    private readonly Pauses _pauses;
    private readonly ChoiceCourse _pause;
    private readonly Course _group;
    private readonly Course _groupRateBpm;
    private readonly Course _resetPercent;

    public SinusSource(KeyValues values, ulong seed, SinusClock clock)
    {
        _clock = clock;
        _ectopy = new Ectopy(values, seed);
        _pauses = new Pauses(values, seed);
        _pause = values.Course(EctopyKeys.VentricularPause);
        _group = values.Course(EctopyKeys.VentricularGroup);
        _groupRateBpm = values.Course(EctopyKeys.GroupRateBpm);
        _resetPercent = values.Course(EctopyKeys.AtrialResetPercent);
    }

    public override bool KeepsSinus => true;

    public override void Begin(RhythmState state, double seconds) => _clock.StartConducting(state, seconds);

    public override void Step(RhythmState state)
    {
        double now = state.SinusSeconds;
        double mean = _clock.MeanRrSeconds(now);
        double interval = _pauses.Lengthened(now, _clock.RrSeconds(now));
        state.Add(HeartEvent.Beat(now, BeatClass.Normal, hasP: true, mean));
        state.SinceVentricular++;
        state.SinceAtrial++;
        bool isVentricular = _ectopy.IsVentricular(state);
        bool isAtrial = !isVentricular && _ectopy.IsAtrial(state);
        double coupling = isVentricular ? _ectopy.VentricularCoupling(state) : isAtrial ? _ectopy.AtrialCoupling(state) : 0;
        double premature = now + Math.Max(ShortestCouplingSeconds, coupling * interval);

        // At the fastest rates there is no room between two beats.
        bool hasRoom = premature < now + interval;
        isVentricular &= hasRoom;
        isAtrial &= hasRoom;
        state.SinusSeconds = now + interval;
        state.SinusIndex++;
        if (isVentricular)
        {
            AddGroup(state, premature, mean);
        }
        else if (isAtrial)
        {
            state.Add(HeartEvent.Beat(premature, BeatClass.AtrialPremature, hasP: true, mean));
            state.SinusSeconds = premature + (0.01 * _resetPercent.Value(now) * interval);
            state.SinceAtrial = 0;
        }

        state.HorizonSeconds = state.SinusSeconds;
    }

    private void AddGroup(RhythmState state, double firstSeconds, double mean)
    {
        int count = (int)_group.Value(firstSeconds);
        double interval = 60 / _groupRateBpm.Value(firstSeconds);
        BeatClass label = count >= 3 ? BeatClass.VentricularRun : BeatClass.VentricularPremature;
        for (int i = 0; i < count; i++)
        {
            double at = firstSeconds + (i * interval);
            _clock.BlockUntil(state, at);
            state.Add(HeartEvent.Beat(at, label, hasP: false, mean));
        }

        // A late beat leaves the next impulse no way through, whatever is wished.
        bool isInterpolated = count == 1 && _pause.Value(firstSeconds) == "interpolated"
            && state.SinusSeconds >= firstSeconds + SinusClock.RefractorySeconds;
        if (!isInterpolated && state.SinusSeconds < firstSeconds + ((count - 1) * interval) + Math.Max(SinusClock.RefractorySeconds, mean))
        {
            // The first impulse after the group is lost, and any other that comes too soon.
            state.Add(HeartEvent.BlockedP(state.SinusSeconds));
            _clock.Advance(state);
            _clock.BlockUntil(state, state.LastRSeconds + SinusClock.RefractorySeconds);
        }

        state.SinceVentricular = 0;
    }
}
