// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>Runs a detector over a stream that is cut in a given way, and keeps its marks.</summary>
internal static class CutRun
{
    /// <summary>Marks of a run, in the order in which they were given.</summary>
    public static IReadOnlyList<Mark> Marks(Scenario scenario, IDetector detector, Cuts cuts)
    {
        IToldStream stream = scenario.OpenStream();
        var block = new SampleBlock(stream.Format, cuts.LongestTicks);
        var output = new DetectorOutput();
        var marks = new List<Mark>();
        detector.Start(stream.Format);
        for (long cut = 0; stream.PositionTick < stream.EndTick; cut++)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + cuts.Ticks(cut)));
            stream.Truth.Clear();
            stream.Acquisition.Clear();
            detector.Process(block, output);
            Take(output, marks);
        }

        detector.Flush(output);
        Take(output, marks);
        return marks;
    }

    private static void Take(DetectorOutput output, List<Mark> marks)
    {
        while (output.Marks.TryTake(out Mark mark))
        {
            marks.Add(mark);
        }

        output.Requests.Clear();
    }
}

/// <summary>Lengths of blocks.</summary>
/// <param name="longestTicks">The longest, and every one when they are even.</param>
/// <param name="random">Draws the lengths; null: all even.</param>
internal sealed class Cuts(long longestTicks, KeyedRandom? random)
{
    /// <summary>Longest block [ticks].</summary>
    public long LongestTicks => longestTicks;

    /// <summary>Blocks of one length.</summary>
    public static Cuts Even(long ticks) => new(ticks, null);

    /// <summary>Blocks of any length, drawn from a seed.</summary>
    public static Cuts Any(long longestTicks, ulong seed) => new(longestTicks, new KeyedRandom(seed, "testing.cuts"));

    /// <summary>Length of a block [ticks].</summary>
    public long Ticks(long index) => random is KeyedRandom drawn ? 1 + (long)(((ulong)drawn.Word(index) * (ulong)longestTicks) >> 32) : longestTicks;
}
