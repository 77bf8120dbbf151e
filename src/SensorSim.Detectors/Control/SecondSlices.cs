// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Cuts a block at whole seconds, so that channels can be worked through one after the other and seconds still end together.</summary>
internal static class SecondSlices
{
    /// <summary>The first second that a block touches.</summary>
    /// <param name="block">The block.</param>
    /// <param name="ticksPerSecond">Ticks in a second.</param>
    public static long First(SampleBlock block, long ticksPerSecond) => block.BeginTick / ticksPerSecond;

    /// <summary>The last second that a block touches; before the first one when it is empty.</summary>
    /// <param name="block">The block.</param>
    /// <param name="ticksPerSecond">Ticks in a second.</param>
    public static long Last(SampleBlock block, long ticksPerSecond) =>
        block.EndTick == block.BeginTick ? First(block, ticksPerSecond) - 1 : (block.EndTick - 1) / ticksPerSecond;

    /// <summary>What of a run lies within a second.</summary>
    /// <param name="run">The run.</param>
    /// <param name="rateHz">Rate of its channel [Hz].</param>
    /// <param name="second">The second.</param>
    /// <returns>A run; with a count of 0 or less there is nothing.</returns>
    public static SampleRun Part(in SampleRun run, int rateHz, long second)
    {
        long from = Math.Max(run.FirstIndex, second * rateHz);
        long end = Math.Min(run.FirstIndex + run.Count, (second + 1) * rateHz);
        return new SampleRun(from, run.Offset + (int)(from - run.FirstIndex), (int)Math.Max(0, end - from));
    }
}
