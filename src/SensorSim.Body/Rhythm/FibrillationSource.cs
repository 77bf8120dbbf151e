// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Rhythm;

/// <summary>Atrial fibrillation: independent RR intervals of a shifted log-normal distribution, no P waves.</summary>
/// <remarks>
/// RR = floor + e^(μ + σz): unimodal, skewed to the right, with the stated mean and coefficient of variation, successive intervals
/// uncorrelated, so RMSSD = √2 · SD. Shape after Hennig et al. 2006 (cond-mat/0605295); floor 300 ms, or 55 % of a shorter mean but at least 200 ms; at most 2.5 times the mean.
/// </remarks>
internal sealed class FibrillationSource : RhythmSource
{
    private const double FloorSeconds = 0.3;
    private const double LowestFloorSeconds = 0.2;
    private const double FloorShare = 0.55;

    // The tail of the log-normal has no end; one interval in some thousand would last for a pause.
    private const double MostOfMean = 2.5;

    // A ventricle needs so long to fill as usual, however fast the rhythm: below it early beats eject little (choice of this project).
    private const double FillingSeconds = 0.65;

    private readonly Course _rateBpm;
    private readonly Course _cvPercent;
    private readonly KeyedRandom _draws;

    public FibrillationSource(KeyValues values, ulong seed)
    {
        _rateBpm = values.Course(HeartKeys.RateBpm);
        _cvPercent = values.Course(AtrialArrhythmiaKeys.FibrillationRrCvPercent);
        _draws = new KeyedRandom(seed, "fibrillation.rr");
    }

    public override bool KeepsSinus => false;

    public override void Begin(RhythmState state, double seconds)
    {
        state.Place = 0;
        state.NextSeconds = Math.Max(seconds, state.LastRSeconds + Interval(seconds, state.Draw));
        state.HorizonSeconds = state.NextSeconds;
    }

    public override void Step(RhythmState state)
    {
        double now = state.NextSeconds;
        state.Add(HeartEvent.Beat(now, BeatClass.AtrialArrhythmia, hasP: false, Math.Max(FillingSeconds, 60 / _rateBpm.Value(now))));
        state.Place++;
        state.NextSeconds = now + Interval(now, state.Draw);
        state.HorizonSeconds = state.NextSeconds;
    }

    private double Interval(double seconds, long draw)
    {
        double mean = 60 / _rateBpm.Value(seconds);
        double floor = Math.Max(LowestFloorSeconds, Math.Min(FloorSeconds, FloorShare * mean));
        double above = mean - floor;
        double sd = 0.01 * _cvPercent.Value(seconds) * mean;
        double variance = PortableMath.Log(1 + (sd * sd / (above * above)));
        double interval = floor + (above * PortableMath.Exp((Math.Sqrt(variance) * _draws.Normal(draw)) - (0.5 * variance)));
        return Math.Min(MostOfMean * mean, interval);
    }
}
