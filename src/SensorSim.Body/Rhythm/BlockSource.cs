// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Rhythm;

/// <summary>Second-degree block: of every cycle of P waves the last is not conducted.</summary>
/// <remarks>
/// Type 1 (Wenckebach): PR grows by steps that halve, so that RR shrinks before the drop and the pause is shorter than two PP.
/// Type 2: PR stays, the pause is two PP. Textbook rules (common practice).
/// </remarks>
internal sealed class BlockSource : RhythmSource
{
    private readonly SinusClock _clock;
    private readonly Course _cycle;
    private readonly Course _incrementMs;
    private readonly bool _isGrowing;

    public BlockSource(KeyValues values, SinusClock clock, bool isGrowing)
    {
        _clock = clock;
        _cycle = values.Course(BlockKeys.PWavesPerCycle);
        _incrementMs = values.Course(BlockKeys.PrIncrementMs);
        _isGrowing = isGrowing;
    }

    public override bool KeepsSinus => true;

    public override void Begin(RhythmState state, double seconds)
    {
        _clock.StartConducting(state, seconds);
        state.Place = 0;
    }

    public override void Step(RhythmState state)
    {
        double now = state.SinusSeconds;
        if (state.Place >= (long)_cycle.Value(now) - 1)
        {
            state.Add(HeartEvent.BlockedP(now));
            state.Place = 0;
        }
        else
        {
            double extra = _isGrowing ? Extra(state.Place, _incrementMs.Value(now) * 1e-3) : 0;
            HeartEvent beat = HeartEvent.Beat(now + extra, BeatClass.Normal, hasP: true, _clock.MeanRrSeconds(now));
            beat.ExtraPrSeconds = extra;
            state.Add(beat);
            state.Place++;
        }

        _clock.Advance(state);
        state.HorizonSeconds = state.SinusSeconds;
    }

    // 0, i, i + i/2, i + i/2 + i/4 and so on.
    private static double Extra(long place, double increment)
    {
        double extra = 0;
        for (long k = 0; k < place; k++)
        {
            extra += increment;
            increment *= 0.5;
        }

        return extra;
    }
}
