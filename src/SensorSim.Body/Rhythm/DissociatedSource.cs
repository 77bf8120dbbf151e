// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Rhythm;

/// <summary>Ventricles on a clock of their own while the sinus node goes on unheard: third-degree block and ventricular tachycardia.</summary>
internal sealed class DissociatedSource : RhythmSource
{
    private readonly SinusClock _clock;
    private readonly Course _rateBpm;
    private readonly double _spread;
    private readonly BeatClass _label;
    private readonly bool _dependsOnFilling;
    private readonly Course _pulsePercent;
    private readonly KeyedRandom _draws;

    private DissociatedSource(
        SinusClock clock, Course rateBpm, double spread, BeatClass label, bool dependsOnFilling, Course pulsePercent, KeyedRandom draws)
    {
        _clock = clock;
        _rateBpm = rateBpm;
        _spread = spread;
        _label = label;
        _dependsOnFilling = dependsOnFilling;
        _pulsePercent = pulsePercent;
        _draws = draws;
    }

    /// <summary>Third-degree block with escape rhythm; its intervals vary by 2 % (choice of this project).</summary>
    public static DissociatedSource Block(KeyValues values, ulong seed, SinusClock clock) => new(
        clock,
        values.Course(BlockKeys.EscapeRateBpm),
        0.02,
        values[BlockKeys.Escape] == "junctional" ? BeatClass.JunctionalEscape : BeatClass.VentricularEscape,
        dependsOnFilling: true,
        new Course(100),
        new KeyedRandom(seed, "block.escape"));

    /// <summary>Ventricular tachycardia; its intervals vary by 1 % (choice of this project).</summary>
    public static DissociatedSource Tachycardia(KeyValues values, ulong seed, SinusClock clock) => new(
        clock,
        values.Course(VentricularKeys.TachycardiaRateBpm),
        0.01,
        BeatClass.VentricularRun,
        dependsOnFilling: false,
        values.Course(VentricularKeys.TachycardiaPulsePercent),
        new KeyedRandom(seed, "ventricular_tachycardia.rr"));

    public override bool KeepsSinus => true;

    public override void Begin(RhythmState state, double seconds)
    {
        _clock.Start(state, seconds);
        state.Place = 0;
        state.NextSeconds = Math.Max(seconds, state.LastRSeconds + (60 / _rateBpm.Value(seconds)));
        state.HorizonSeconds = Math.Min(state.SinusSeconds, state.NextSeconds);
    }

    public override void Step(RhythmState state)
    {
        if (state.SinusSeconds <= state.NextSeconds)
        {
            state.Add(HeartEvent.BlockedP(state.SinusSeconds));
            _clock.Advance(state);
        }
        else
        {
            double now = state.NextSeconds;
            double usual = _dependsOnFilling ? _clock.MeanRrSeconds(now) : double.NaN;
            HeartEvent beat = HeartEvent.Beat(now, _label, hasP: false, usual);
            beat.PulseShare = 0.01 * _pulsePercent.Value(now);
            state.Add(beat);
            state.Place++;
            state.NextSeconds = now + (60 / _rateBpm.Value(now) * (1 + (_spread * _draws.Normal(state.Draw))));
        }

        state.HorizonSeconds = Math.Min(state.SinusSeconds, state.NextSeconds);
    }
}
