// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Rhythm;

/// <summary>A pacemaker sets every beat; the heart's own rhythm does not come through.</summary>
internal sealed class PacedSource : RhythmSource
{
    private readonly Course _rateBpm;
    private readonly double _avDelaySeconds;
    private readonly bool _isDual;

    public PacedSource(KeyValues values)
    {
        _rateBpm = values.Course(VentricularKeys.PacingRateBpm);
        _avDelaySeconds = values[VentricularKeys.AvDelayMs] * 1e-3;
        _isDual = values[VentricularKeys.PacingMode] == "dual";
    }

    public override bool KeepsSinus => false;

    public override void Begin(RhythmState state, double seconds)
    {
        state.NextSeconds = Math.Max(seconds, state.LastRSeconds + (60 / _rateBpm.Value(seconds)));
        state.HorizonSeconds = state.NextSeconds;
    }

    public override void Step(RhythmState state)
    {
        double now = state.NextSeconds;
        double interval = 60 / _rateBpm.Value(now);
        HeartEvent beat = HeartEvent.Beat(now, BeatClass.Paced, _isDual, interval);
        beat.PrSeconds = _isDual ? _avDelaySeconds : double.NaN;
        beat.HasAtrialSpike = _isDual;
        beat.HasVentricularSpike = true;
        state.Add(beat);
        state.NextSeconds = now + interval;
        state.HorizonSeconds = state.NextSeconds;
    }
}
