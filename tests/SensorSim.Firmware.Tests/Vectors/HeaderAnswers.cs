// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detection;
using SensorSim.Detection.Pipeline;
using SensorSim.Detectors;
using SensorSim.Files.Rows;
using SensorSim.Firmware.Tests.Twins;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Vectors;

/// <summary>What the C library answers to the samples of a vector header: tests/firmware/vectors/vector_answers.c compiled with it and run here.</summary>
internal sealed class HeaderAnswers
{
    private HeaderAnswers(string text, int count)
    {
        Detections = text;
        Count = count;
    }

    /// <summary>The answers as the text of a detections.csv.</summary>
    public string Detections { get; }

    /// <summary>How many answers there are.</summary>
    public int Count { get; }

    private static string Folder => Path.Combine(CCompiler.Root, "tests", "firmware", "vectors");

    /// <summary>Compiles and runs.</summary>
    /// <param name="header">Path of the header.</param>
    public static HeaderAnswers Of(string header)
    {
        string program = Path.Combine(TwinBuild.Folder, "vector-" + Path.GetFileNameWithoutExtension(header));
        string[] sources = [Path.Combine(Folder, "vector_answers.c"), Path.Combine(Folder, "vector_out_host.c")];
        CCompiler.Run(
            "gcc",
            [.. TwinBuild.Strict, .. TwinBuild.Includes, "-I", Folder, $"-DVECTOR_HEADER=\"{header}\"", "-O1", "-o", program, .. sources, .. TwinBuild.Objects("gcc", "-O2", "-fPIC")]);
        return Read(CCompiler.Run(program));
    }

    private static HeaderAnswers Read(string printed)
    {
        string[][] lines = [.. printed.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(' '))];
        string[][] channels = [.. lines.Where(line => line[0] == "channel")];
        var format = new StreamFormat([.. channels.Select(ChannelOf)]);
        string[] end = lines.Single(line => line[0] == "end");
        Assert.That(Whole(end[1]), Is.EqualTo(format.Clock.TicksPerSecond), "ticks per second");
        LibrarySetup setup = SetupOf.Stream(format);
        foreach (string[] line in channels)
        {
            ChannelSetup wanted = setup.Channels[(int)Whole(line[2])];
            Assert.That(
                line[3..9].Select(Whole),
                Is.EqualTo((long[])[wanted.RateHz, wanted.TicksPerSample, wanted.Polarity, wanted.ZeroCode, wanted.CodesPerUnit256, wanted.Delay256]),
                line[1] + ": what the header tells the library");
        }

        var output = new DetectorOutput();
        var writer = new AnswerWriter(format);
        using var bytes = new MemoryStream();
        int count = 0;
        using (var csv = new DetectionsCsvWriter(bytes, format))
        {
            foreach (string[] line in lines.Where(line => line[0] == "answer"))
            {
                writer.Write(AnswerOf([.. line.Skip(1).Select(Whole)]), output);
                while (output.Marks.TryTake(out Mark mark))
                {
                    csv.Write(mark);
                    count++;
                }
            }
        }

        Assert.That(lines[^1], Is.EqualTo((string[])["done", count.ToString(CultureInfo.InvariantCulture)]), "the last line");
        return new HeaderAnswers(System.Text.Encoding.UTF8.GetString(bytes.ToArray()), count);
    }

    // Bits, sign and device are not in the header and no answer depends on them; the declared delay is, in 1/256 tick, and is told to the library.
    private static ChannelFormat ChannelOf(string[] line)
    {
        ChannelName name = SetupOf.NameOf((ChannelRole)Whole(line[2]));
        Assert.That(name.Text(), Is.EqualTo(line[1]), "name and role");
        return new ChannelFormat
        {
            Name = name,
            Device = "header",
            RateHz = (int)Whole(line[3]),
            Bits = 24,
            IsSigned = true,
            Polarity = (int)Whole(line[5]),
            ZeroCode = (int)Whole(line[6]),
            UnitPerCode = double.Parse(line[9], CultureInfo.InvariantCulture),
            DeclaredDelayNs = Nanoseconds(Whole(line[8]), Whole(line[3]) * Whole(line[4])),
        };
    }

    private static long Nanoseconds(long delay256, long ticksPerSecond) => (long)Math.Round((decimal)delay256 * 1_000_000_000 / 256 / ticksPerSecond);

    private static Answer AnswerOf(long[] n) => new()
    {
        Kind = (AnswerKind)n[0],
        Reading = (ReadingKind)n[1],
        Role = (ChannelRole)n[2],
        PairedRole = (ChannelRole)n[3],
        Quality = (byte)n[4],
        Value = (int)n[5],
        Place = new(n[6], (byte)n[7]),
        Paired = new(n[8], (byte)n[9]),
        WindowSamples = n[10],
        EmittedTick = n[11],
    };

    private static long Whole(string text) => long.Parse(text, CultureInfo.InvariantCulture);
}
