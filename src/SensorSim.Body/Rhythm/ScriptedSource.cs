// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Rhythm;

/// <summary>Beats of a list, one after the other and again from the start. The list's first beat has its R wave at the stated instant.</summary>
internal sealed class ScriptedSource : RhythmSource
{
    /// <summary>R wave of the first beat of the list when the rhythm is scripted from the start [s].</summary>
    public const double FirstSeconds = 0.5;

    private readonly IReadOnlyList<ScriptedBeat> _beats;
    private readonly double _meanSeconds;

    public ScriptedSource(KeyValues values)
    {
        _beats = values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.Beats)
            ?? values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.BeatsFile)
            ?? [new ScriptedBeat(BeatClass.Normal, 60 / values[HeartKeys.RateBpm])];
        double sum = 0;
        foreach (ScriptedBeat beat in _beats)
        {
            sum += beat.RrSeconds;
        }

        _meanSeconds = sum / _beats.Count;
    }

    public override bool KeepsSinus => false;

    public override void Begin(RhythmState state, double seconds)
    {
        state.Place = 0;
        if (state.BeatCount > 0 || seconds >= FirstSeconds)
        {
            state.NextSeconds = Math.Max(seconds, state.LastRSeconds + _meanSeconds);
            state.HorizonSeconds = state.NextSeconds;
            return;
        }

        // Before the first beat of the list: normal beats at its mean interval, for pulses and averages to settle.
        double lead = Math.Max(0.6, _meanSeconds);
        double count = Math.Floor((FirstSeconds - state.LastRSeconds) / lead);
        state.NextSeconds = FirstSeconds - (count * lead);
        state.Place = -(long)count;
        state.HorizonSeconds = state.NextSeconds;
    }

    public override void Step(RhythmState state)
    {
        bool isLead = state.Place < 0;
        double lead = Math.Max(0.6, _meanSeconds);
        ScriptedBeat beat = isLead ? new ScriptedBeat(BeatClass.Normal, lead) : _beats[(int)(state.Place % _beats.Count)];
        bool hasP = beat.Class is BeatClass.Normal or BeatClass.AtrialPremature;
        HeartEvent item = HeartEvent.Beat(state.NextSeconds, beat.Class, hasP, _meanSeconds);
        item.HasVentricularSpike = beat.Class == BeatClass.Paced;
        state.Add(item);
        state.Place++;

        // Sums of intervals would drift from the first beat on: the list's own sum is added whole.
        state.NextSeconds = state.Place == 0 ? FirstSeconds : state.NextSeconds + beat.RrSeconds;
        state.HorizonSeconds = state.NextSeconds;
    }
}
