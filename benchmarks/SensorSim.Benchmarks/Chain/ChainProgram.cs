// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Benchmarks.Inputs;

namespace SensorSim.Benchmarks.Chain;

/// <summary>The chain mode: whole chain, stages, script and workers in one run, turn by turn, the quickest of each counting.</summary>
internal static class ChainProgram
{
    // Enough for the runtime to have compiled every loop to its best and for both inputs to have been seen.
    private const int WarmUpRuns = 4;
    private const int WarmUpSeconds = 1200;
    private const double WarmUpPauseSeconds = 0.3;

    /// <summary>Runs it.</summary>
    /// <param name="arguments">Arguments after <c>chain</c>.</param>
    /// <returns>Exit code: 0 done, 2 wrong arguments, 3 the script cannot run.</returns>
    public static int Run(string[] arguments)
    {
        try
        {
            Measure(ChainOptions.Parse(arguments), Console.Out, Console.Error);
            return 0;
        }
        catch (FormatException e)
        {
            Console.Error.WriteLine(e.Message);
            Console.Error.WriteLine(ChainOptions.Usage);
            return 2;
        }
        catch (InvalidOperationException e)
        {
            Console.Error.WriteLine(e.Message);
            return 3;
        }
    }

    private static void Measure(ChainOptions options, TextWriter to, TextWriter messages)
    {
        string loadBefore = Machine.Load();
        ChainResult[] results = [new(StreamInput.Rest), new(StreamInput.EverythingOn)];
        ScriptRun? script = null;
        WarmUp(results);
        for (int i = 0; i < options.Repeats; i++)
        {
            messages.WriteLine($"repeat {i + 1} of {options.Repeats}");
            foreach (ChainResult result in results)
            {
                result.MeasureWhole(options.Seconds);
                if (options.WithScript)
                {
                    script = ScriptRun.Best(script, ScriptRun.Run(options.Seconds));
                }

                result.MeasureStages(options.Seconds);
                result.MeasureWorkers(options.Seconds);
            }
        }

        foreach (ChainResult result in results)
        {
            result.MeasureBytes();
        }

        to.WriteLine(Machine.Describe());
        to.WriteLine($"- load (one minute) before {loadBefore}, after {Machine.Load()}");
        to.WriteLine($"- {options.Seconds} s of signal a run, {StreamInput.SamplesPerSecond} samples a second, best of {options.Repeats}");
        to.WriteLine();
        ChainTables.Times(to, results, script, options.Seconds);
        to.WriteLine();
        ChainTables.Workers(to, results, options.Seconds);
        to.WriteLine();
        foreach (ChainResult result in results)
        {
            to.WriteLine($"{result.Input.Name}: {result.Outcome!.SampleCount} samples, {result.Outcome.MarkCount} marks, {result.Outcome.DetectorName}, {result.Outcome.Verdict}");
        }
    }

    // The runtime compiles in the background: give it time between the runs, by its own clock.
    private static void WarmUp(ChainResult[] results)
    {
        for (int i = 0; i < WarmUpRuns; i++)
        {
            long begin = Stopwatch.GetTimestamp();
            do
            {
                foreach (ChainResult result in results)
                {
                    WholeChain.Run(result.Input, WarmUpSeconds);
                    StageTimes.Measure(result.Input, WarmUpSeconds);
                }
            }
            while (Stopwatch.GetElapsedTime(begin).TotalSeconds < WarmUpPauseSeconds);
        }
    }
}
