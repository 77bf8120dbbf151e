// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Makes a whole scenario, with its truth, and says how fast, with how much memory and how complete.</summary>
internal static class MakeProgram
{
    /// <summary>Makes it.</summary>
    /// <param name="arguments">Path of the scenario, or nothing for the day; then how often.</param>
    /// <returns>Exit code: 0 done.</returns>
    public static int Run(string[] arguments)
    {
        string path = arguments.Length > 0 ? arguments[0] : Repository.PathOf("waveforms", "scenarios", "day.toml");
        int repeats = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 3;
        Scenario scenario = ScenarioReader.ReadFile(path);
        Console.WriteLine(Machine.Describe());
        Console.WriteLine($"- load (one minute) {Machine.Load()}");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"- {scenario.Title}: {scenario.DurationS} s of signal, one core, with truth, without detector"));
        Console.WriteLine();
        Console.WriteLine("| run | x real time, wall | x real time, processor | ns/sample, processor | samples | truth rows | beats | rows lost | bytes allocated after the first minute | memory, MB |");
        Console.WriteLine("|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|");
        for (int i = 1; i <= repeats; i++)
        {
            Console.WriteLine(Line(i, scenario));
        }

        return 0;
    }

    private static string Line(int run, Scenario scenario)
    {
        SensorStream stream = scenario.CreateStream();
        stream.KeepSettings();
        long second = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, second);
        long samples = 0;
        long rows = 0;
        long beats = 0;
        long bytes = 0;
        Spent begin = Spent.Now();
        for (long n = 0; stream.PositionTick < stream.EndTick; n++)
        {
            bytes = n == 60 ? GC.GetAllocatedBytesForCurrentThread() : bytes;
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + second));
            foreach (ChannelBlock channel in block.Channels)
            {
                samples += channel.Count;
            }

            while (stream.Truth.TryTake(out TruthEvent row))
            {
                rows++;
                beats += row.Kind == MarkKind.RPeak ? 1 : 0;
            }
        }

        Spent spent = Spent.Now() - begin;
        bytes = GC.GetAllocatedBytesForCurrentThread() - bytes;
        double megabytes = Environment.WorkingSet / 1e6;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {run} | {scenario.DurationS / spent.Wall:#,0} | {scenario.DurationS / spent.Cpu:#,0} | {1e9 * spent.Cpu / samples:0.00} | {samples:#,0} | {rows:#,0} | {beats:#,0} | {stream.Truth.OverflowCount} | {bytes} | {megabytes:0} |");
    }
}
