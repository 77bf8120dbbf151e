// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Rhythm;

/// <summary>One kind of rhythm: knobs and draws only; what changes stands in <see cref="RhythmState"/>. One call for a few beats.</summary>
internal abstract class RhythmSource
{
    /// <summary>Whether the sinus node goes on under this rhythm.</summary>
    public abstract bool KeepsSinus { get; }

    /// <summary>Starts this rhythm after another one, or as the first, and moves the horizon to its first event.</summary>
    /// <param name="state">What changes.</param>
    /// <param name="seconds">From when on its events may lie [s].</param>
    public abstract void Begin(RhythmState state, double seconds);

    /// <summary>Adds the next event or group of events in order of time, and moves the horizon on.</summary>
    /// <param name="state">What changes.</param>
    public abstract void Step(RhythmState state);
}
