// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Rendering;

/// <summary>One wave of one beat while it is being drawn on a grid by its recurrence.</summary>
/// <typeparam name="TSelf">The wave itself.</typeparam>
internal interface IActiveWave<TSelf>
    where TSelf : struct, IActiveWave<TSelf>
{
    /// <summary>Waves that a beat has.</summary>
    static abstract int PerBeat { get; }

    /// <summary>Sample that is drawn next.</summary>
    long Next { get; }

    /// <summary>Last sample of the wave, not before <see cref="Next"/> while there is anything to draw.</summary>
    long Last { get; }

    /// <summary>Sets a wave to its own first sample.</summary>
    /// <param name="beat">The beat.</param>
    /// <param name="index">Which of its waves.</param>
    /// <param name="variant">Which variant of the wave the grid draws, for example the channel of a pulse; see the kind of wave.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="wave">Receives the wave.</param>
    /// <returns>Whether the wave has any sample.</returns>
    static abstract bool TryStart(in BeatView beat, int index, int variant, in SampleGrid grid, out TSelf wave);

    /// <summary>Moves on to a sample without drawing.</summary>
    void SkipTo(long index);

    /// <summary>Adds the wave to consecutive samples from <see cref="Next"/> on, and moves on.</summary>
    void Draw(Span<double> buffer);
}
