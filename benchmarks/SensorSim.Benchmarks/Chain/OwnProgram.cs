// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Detectors.Choices;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Times detectors of users over a stream in memory, each C library in this process and in one of its own.</summary>
internal static class OwnProgram
{
    private const string Usage = "usage: own SECONDS ROUNDS FILE...";

    private static readonly int[] s_blocksPerSecond = [1, 10];

    /// <summary>Runs it.</summary>
    /// <param name="arguments">Length, number of rounds, files.</param>
    /// <returns>Exit code: 0 done, 2 wrong arguments.</returns>
    public static int Run(string[] arguments)
    {
        if (arguments is not [string length, string count, .. { Length: > 0 } files]
            || !int.TryParse(length, NumberStyles.None, CultureInfo.InvariantCulture, out int seconds)
            || !int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out int rounds)
            || seconds < 1 || seconds > 3600 || rounds < 1)
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        DetectorChoice[] choices = [.. files.SelectMany(Choices)];
        IDetectorFactory[] factories = [.. choices.Select(DetectorFactories.Open)];
        foreach (int perSecond in s_blocksPerSecond)
        {
            SensorStream stream = StreamInput.Rest.CreateStream(seconds);
            SampleBlock[] blocks = Read(stream, seconds * perSecond, stream.Format.Clock.TicksPerSecond / perSecond);
            IDetector[] detectors = [.. factories.Select(f => f.Create(new Dictionary<string, double>()))];
            double[] least = [.. detectors.Select(_ => double.MaxValue)];
            long[] marks = new long[detectors.Length];

            // Round about, so that other work on the machine meets all of them alike.
            for (int round = 0; round < rounds; round++)
            {
                for (int d = 0; d < detectors.Length; d++)
                {
                    long begin = Stopwatch.GetTimestamp();
                    marks[d] = Detect(detectors[d], stream.Format, blocks);
                    least[d] = Math.Min(least[d], Stopwatch.GetElapsedTime(begin).TotalNanoseconds);
                }
            }

            for (int d = 0; d < detectors.Length; d++)
            {
                detectors[d].Dispose();
                double perSample = least[d] / ((double)seconds * StreamInput.SamplesPerSecond);
                Console.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"{choices[d].Label,-40} blocks of {1.0 / perSecond:0.0} s: {perSample,7:F2} ns per sample, {least[d] / blocks.Length / 1000,7:F1} µs per block, {least[d] / least[0],6:F2} × the first; {marks[d]} marks"));
            }
        }

        foreach (IDetectorFactory factory in factories)
        {
            factory.Dispose();
        }

        return 0;
    }

    private static IEnumerable<DetectorChoice> Choices(string file)
    {
        var own = new DetectorChoice { Label = Path.GetFileName(file), Path = file, Adapter = DetectorFiles.AdapterOf(file) };
        return own.Adapter == DetectorAdapter.Assembly
            ? [own]
            : [own with { Label = own.Label + " in process", IsInProcess = true }, own with { Label = own.Label + " in a child" }];
    }

    private static SampleBlock[] Read(SensorStream stream, int count, long ticks)
    {
        var blocks = new SampleBlock[count];
        for (int i = 0; i < count; i++)
        {
            blocks[i] = new SampleBlock(stream.Format, ticks);
            stream.Read(blocks[i], stream.PositionTick + ticks);
            stream.Truth.Clear();
        }

        return blocks;
    }

    private static long Detect(IDetector detector, StreamFormat format, SampleBlock[] blocks)
    {
        long marks = 0;
        var output = new DetectorOutput();
        detector.Start(format);
        foreach (SampleBlock block in blocks)
        {
            detector.Process(block, output);
            marks += output.Marks.Count;
            output.Marks.Clear();
            output.Requests.Clear();
        }

        detector.Flush(output);
        return marks + output.Marks.Count;
    }
}
