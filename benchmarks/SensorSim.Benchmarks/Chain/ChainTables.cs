// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Benchmarks.Inputs;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Prints the results as tables in Markdown.</summary>
internal static class ChainTables
{
    /// <summary>Whole chain and stages.</summary>
    public static void Times(TextWriter to, IEnumerable<ChainResult> results, ScriptRun? script, int seconds)
    {
        to.WriteLine(
            "| input | x real time, wall | slowest run, wall | x real time, processor | ns/sample, processor | make | detect | score "
            + "| B/block | script's wall time over ours | script's processor time over ours |");
        to.WriteLine("|---|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|");
        foreach (ChainResult r in results)
        {
            string ratios = script is null
                ? "| |"
                : $"{Text(script.Total.Wall / r.Whole.Wall, "0.0")} | {Text(script.Total.Cpu / r.Whole.Cpu, "0.0")} |";
            to.WriteLine(
                $"| {r.Input.Name} | {Rate(r.Whole.Wall, seconds)} | {Rate(r.Slowest, seconds)} | {Rate(r.Whole.Cpu, seconds)} "
                + $"| {Each(r.Whole, seconds)} | {Stages(r.Stages, seconds)} | {Text(r.BytesPerBlock, "0.##")} | {ratios}");
        }

        if (script is not null)
        {
            to.WriteLine(
                $"| numpy/scipy script | {Rate(script.Total.Wall, seconds)} | | {Rate(script.Total.Cpu, seconds)} "
                + $"| {Each(script.Total, seconds)} | {Stages(script.Stages, seconds)} | | 1 | 1 |");
        }
    }

    /// <summary>One worker and two. The last column: twice the processor time of one over that of two, times two.</summary>
    public static void Workers(TextWriter to, IEnumerable<ChainResult> results, int seconds)
    {
        to.WriteLine("| input | one worker, x real time | two workers, x real time together | two against one, wall | the same if each had had a core to itself |");
        to.WriteLine("|---|--:|--:|--:|--:|");
        foreach (ChainResult r in results)
        {
            to.WriteLine(
                $"| {r.Input.Name} | {Rate(r.OneWorker.Wall, seconds)} | {Rate(r.TwoWorkers.Wall, 2 * seconds)} "
                + $"| {Text(2 * r.OneWorker.Wall / r.TwoWorkers.Wall, "0.00")} | {Text(4 * r.OneWorker.Cpu / r.TwoWorkers.Cpu, "0.00")} |");
        }
    }

    private static string Rate(double spent, int seconds) => Text(seconds / spent, "#,0");

    private static string Stages(StageTimes stages, int seconds) =>
        $"{Each(stages.Make, seconds)} | {Each(stages.Detect, seconds)} | {Each(stages.Score, seconds)}";

    // Processor time, which is what the work itself takes.
    private static string Each(Spent spent, int seconds) => Text(spent.Cpu * 1e9 / ((double)seconds * StreamInput.SamplesPerSecond), "0.00");

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
