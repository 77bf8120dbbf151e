// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing;

/// <summary>When a channel takes over what its live knobs have become.</summary>
public static class LiveLatch
{
    /// <summary>Samples of a channel for which the value of a live knob holds; the value is that at the instant of the first of them.</summary>
    public const int Samples = 64;

    /// <summary>Index of the first sample that shows what a knob has become at a time.</summary>
    /// <param name="grid">Sampling instants of the channel.</param>
    /// <param name="seconds">Body time [s].</param>
    /// <returns>A multiple of <see cref="Samples"/>, at least 0.</returns>
    public static long FirstSample(SampleGrid grid, double seconds)
    {
        long index = Math.Max(0, grid.FirstAtOrAfter(seconds));
        return (index + Samples - 1) / Samples * Samples;
    }
}
