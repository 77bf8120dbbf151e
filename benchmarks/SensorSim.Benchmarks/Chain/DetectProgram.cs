// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Detectors;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Times the library alone over a stream in memory, in its steady state: the whole of it, readings and gates included, or only what finds beats and pulses.</summary>
/// <remarks>Each ten seconds of the stream have their least time of all rounds, and these are added: what else the machine does in between hardly shows.
/// The samples of ten seconds are read before their time is taken: a detector gets what has just come and still lies near.</remarks>
internal static class DetectProgram
{
    private const string Usage = "usage: detect rest|walk|on SECONDS ROUNDS [core]   (core: beats, pulses in two colours, cancelling; not with `on`)";
    private const int BlocksInPart = 10;

    // Used by nobody: it keeps the reading from being left out.
    private static long s_touched;

    /// <summary>Runs it.</summary>
    /// <param name="arguments">Input, length and number of rounds.</param>
    /// <returns>Exit code: 0 done, 2 wrong arguments.</returns>
    public static int Run(string[] arguments)
    {
        bool isCore = arguments is [_, _, _, "core"];
        if (arguments is not [("rest" or "walk" or "on") and string name, string length, string count, ..]
            || arguments.Length != (isCore ? 4 : 3) || (isCore && name == "on")
            || !int.TryParse(length, NumberStyles.None, CultureInfo.InvariantCulture, out int seconds)
            || !int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out int rounds)
            || seconds < 1 || seconds > 3600 || rounds < 1)
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        SensorStream stream = InputOf(name).CreateStream(seconds);
        SampleBlock[] blocks = Read(stream, seconds);
        var least = new double[(seconds + BlocksInPart - 1) / BlocksInPart];
        Array.Fill(least, double.MaxValue);
        string found = "";
        for (int round = 0; round < rounds; round++)
        {
            found = isCore ? Core(stream.Format, blocks, least) : Whole(stream.Format, blocks, least);
        }

        double nanoseconds = least.Sum() / ((double)seconds * StreamInput.SamplesPerSecond);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{name}, {(isCore ? "core" : "whole")}: {nanoseconds:F2} ns per sample, the least of {rounds} rounds; {found}"));
        return 0;
    }

    private static StreamInput InputOf(string name) => name switch
    {
        "rest" => StreamInput.Rest,
        "walk" => new StreamInput("walking", ScenarioReader.ReadFile(Repository.PathOf("waveforms", "scenarios", "walking-wrist.toml")).Values),
        _ => StreamInput.EverythingOn,
    };

    private static SampleBlock[] Read(SensorStream stream, int seconds)
    {
        var blocks = new SampleBlock[seconds];
        for (int i = 0; i < seconds; i++)
        {
            blocks[i] = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
            stream.Read(blocks[i], stream.PositionTick + stream.Format.Clock.TicksPerSecond);
            stream.Truth.Clear();
        }

        return blocks;
    }

    private static string Whole(StreamFormat format, SampleBlock[] blocks, double[] least)
    {
        using var detector = new LibraryDetector();
        var output = new DetectorOutput();
        detector.Start(format);
        long marks = 0;
        ulong sum = 14695981039346656037;
        for (int part = 0; part < least.Length; part++)
        {
            Touch(PartOf(blocks, part));
            long begin = Stopwatch.GetTimestamp();
            foreach (SampleBlock block in PartOf(blocks, part))
            {
                detector.Process(block, output);
            }

            Keep(begin, ref least[part]);
            marks += output.Marks.Count;
            for (int i = 0; i < output.Marks.Count; i++)
            {
                sum = Add(sum, output.Marks[i]);
            }

            output.Marks.Clear();
            output.Requests.Clear();
        }

        return string.Create(CultureInfo.InvariantCulture, $"{marks} marks, sum {sum:x16}");
    }

    private static string Core(StreamFormat format, SampleBlock[] blocks, double[] least)
    {
        var stages = new CoreStages(format);
        for (int part = 0; part < least.Length; part++)
        {
            Touch(PartOf(blocks, part));
            long begin = Stopwatch.GetTimestamp();
            foreach (SampleBlock block in PartOf(blocks, part))
            {
                stages.Take(block);
            }

            Keep(begin, ref least[part]);
        }

        return string.Create(CultureInfo.InvariantCulture, $"{stages.Found} beats and pulses");
    }

    private static Span<SampleBlock> PartOf(SampleBlock[] blocks, int part) =>
        blocks.AsSpan(part * BlocksInPart, Math.Min(BlocksInPart, blocks.Length - (part * BlocksInPart)));

    private static void Touch(ReadOnlySpan<SampleBlock> part)
    {
        foreach (SampleBlock block in part)
        {
            foreach (ChannelBlock channel in block.Channels)
            {
                for (int i = 0; i < channel.Count; i++)
                {
                    s_touched += channel.Codes[i] + channel.Status[i];
                }

                s_touched += channel.Runs.Length == 0 ? 0 : channel.Runs[0].Count;
            }
        }
    }

    private static void Keep(long begin, ref double least) => least = Math.Min(least, Stopwatch.GetElapsedTime(begin).TotalNanoseconds);

    // A sum over everything that a mark says (Fowler, Noll, Vo), to see whether a change of the library has changed an answer.
    private static ulong Add(ulong sum, Mark mark)
    {
        foreach (long part in (ReadOnlySpan<long>)[
            mark.Channel, (long)mark.Kind, mark.Position256, mark.Quality, mark.EmittedTick, mark.HasValue ? mark.ValueMilli : long.MinValue,
            mark.PairedChannel, mark.PairedSample, mark.PairedFraction256, mark.WindowSamples])
        {
            sum = unchecked((sum ^ (ulong)part) * 1099511628211);
        }

        return sum;
    }
}
