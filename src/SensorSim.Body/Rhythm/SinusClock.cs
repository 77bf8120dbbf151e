// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Rhythm;

/// <summary>The sinus node: one impulse after the other, whatever the ventricles do.</summary>
internal sealed class SinusClock(Variability variability)
{
    /// <summary>An impulse that reaches the ventricles sooner than this after a beat finds them refractory [s] (common practice).</summary>
    public const double RefractorySeconds = 0.32;

    /// <summary>Mean interval at a time [s].</summary>
    public double MeanRrSeconds(double seconds) => variability.MeanRrSeconds(seconds);

    /// <summary>Length of the interval that begins at a time [s].</summary>
    public double RrSeconds(double seconds) => variability.RrSeconds(seconds);

    /// <summary>Moves on to the next impulse.</summary>
    public void Advance(RhythmState state)
    {
        state.SinusSeconds += variability.RrSeconds(state.SinusSeconds);
        state.SinusIndex++;
    }

    /// <summary>Starts the node where it stood still: an interval after the latest beat, but not before a time.</summary>
    public void Start(RhythmState state, double seconds)
    {
        if (!state.IsSinusRunning)
        {
            state.SinusSeconds = Math.Max(seconds, state.LastRSeconds + MeanRrSeconds(seconds));
        }

        while (state.SinusSeconds < seconds)
        {
            Advance(state);
        }
    }

    /// <summary>The same, when its impulses are to be conducted: what comes too soon after the latest beat is lost.</summary>
    public void StartConducting(RhythmState state, double seconds)
    {
        Start(state, seconds);
        BlockUntil(state, state.LastRSeconds + RefractorySeconds);
        state.HorizonSeconds = state.SinusSeconds;
    }

    /// <summary>Adds the P waves of impulses before a time as not conducted.</summary>
    public void BlockUntil(RhythmState state, double seconds)
    {
        while (state.SinusSeconds < seconds)
        {
            state.Add(HeartEvent.BlockedP(state.SinusSeconds));
            Advance(state);
        }
    }
}
