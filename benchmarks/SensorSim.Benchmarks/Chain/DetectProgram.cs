// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Detectors;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Times the library alone over a stream in memory: the whole of it, readings and gates included, in its steady state.</summary>
internal static class DetectProgram
{
    private const string Usage = "usage: detect rest|on SECONDS ROUNDS";

    /// <summary>Runs it.</summary>
    /// <param name="arguments">Input, length and number of rounds.</param>
    /// <returns>Exit code: 0 done, 2 wrong arguments.</returns>
    public static int Run(string[] arguments)
    {
        if (arguments is not [("rest" or "on") and string name, string length, string count]
            || !int.TryParse(length, NumberStyles.None, CultureInfo.InvariantCulture, out int seconds)
            || !int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out int rounds)
            || seconds < 1 || seconds > 3600 || rounds < 1)
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        SensorStream stream = (name == "rest" ? StreamInput.Rest : StreamInput.EverythingOn).CreateStream(seconds);
        SampleBlock[] blocks = Read(stream, seconds);
        using var detector = new LibraryDetector();
        var output = new DetectorOutput();
        double least = double.MaxValue;
        long marks = 0;
        for (int round = 0; round < rounds; round++)
        {
            long begin = Stopwatch.GetTimestamp();
            marks = Detect(detector, stream.Format, blocks, output);
            double nanoseconds = Stopwatch.GetElapsedTime(begin).TotalNanoseconds / ((double)seconds * StreamInput.SamplesPerSecond);
            least = Math.Min(least, nanoseconds);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: {least:F2} ns per sample, the least of {rounds} rounds; {marks} marks"));
        return 0;
    }

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

    private static long Detect(LibraryDetector detector, StreamFormat format, SampleBlock[] blocks, DetectorOutput output)
    {
        long marks = 0;
        detector.Start(format);
        foreach (SampleBlock block in blocks)
        {
            detector.Process(block, output);
            marks += output.Marks.Count;
            output.Marks.Clear();
            output.Requests.Clear();
        }

        return marks;
    }
}
