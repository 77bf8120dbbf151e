// SPDX-License-Identifier: MIT
using SensorSim.Benchmarks.Inputs;
using SensorSim.Detectors;
using SensorSim.Sensing;
using SensorSim.Studies.Running;

namespace SensorSim.Benchmarks.Chain;

/// <summary>The whole chain as the command runs it: the one runner, blocks of a second, one thread.</summary>
internal static class WholeChain
{
    /// <summary>Runs an input once, from making its stream to the scores.</summary>
    /// <param name="input">The input.</param>
    /// <param name="seconds">Length [s of signal].</param>
    /// <returns>Time spent, and what came out.</returns>
    public static (Spent Spent, RunOutcome Outcome) Run(StreamInput input, int seconds)
    {
        Spent begin = Spent.Now();
        SensorStream stream = input.CreateStream(seconds);
        using var detector = new LibraryDetector();
        RunOutcome outcome = new Runner(stream, stream.Truth, detector, LibraryRows.CreateScorer(stream)).Run();
        return (Spent.Now() - begin, outcome);
    }

    /// <summary>Bytes allocated per block of a second once everything has been used.</summary>
    /// <param name="input">The input.</param>
    /// <param name="blocks">Blocks to look at.</param>
    public static double BytesPerBlock(StreamInput input, int blocks)
    {
        // The lead-in of a stream without an end is five minutes, and with everything on the first pulse is found after eleven: a row of scores takes its room with its first event.
        const int LeadInBlocks = 700;
        SensorStream stream = input.CreateStream();
        using var detector = new LibraryDetector();
        detector.Start(stream.Format);
        var runner = new Runner(stream, stream.Truth, detector, LibraryRows.CreateScorer(stream));
        Step(runner, LeadInBlocks);
        long before = GC.GetAllocatedBytesForCurrentThread();
        Step(runner, blocks);
        return (double)(GC.GetAllocatedBytesForCurrentThread() - before) / blocks;
    }

    /// <summary>Time of a number of workers together, each with a run of its own on a thread of its own.</summary>
    /// <param name="input">The input, the same for all, so that they do equal work.</param>
    /// <param name="seconds">Length of each run [s of signal].</param>
    /// <param name="workers">How many.</param>
    public static Spent RunTogether(StreamInput input, int seconds, int workers)
    {
        var threads = new Thread[workers];
        Spent begin = Spent.Now();
        for (int i = 0; i < workers; i++)
        {
            threads[i] = new Thread(() => Run(input, seconds));
            threads[i].Start();
        }

        foreach (Thread thread in threads)
        {
            thread.Join();
        }

        return Spent.Now() - begin;
    }

    private static void Step(Runner runner, int blocks)
    {
        for (int i = 0; i < blocks; i++)
        {
            runner.Step();
        }
    }
}
