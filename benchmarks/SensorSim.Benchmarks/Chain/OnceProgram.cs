// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Sensing;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Runs an input once and prints nothing but what came out: for counting instructions and for profilers.</summary>
internal static class OnceProgram
{
    private const string Usage = "usage: once rest|on make|all SECONDS   (make: no detector and no scores)";

    /// <summary>Runs it.</summary>
    /// <param name="arguments">Input, part and length.</param>
    /// <returns>Exit code: 0 done, 2 wrong arguments.</returns>
    public static int Run(string[] arguments)
    {
        if (arguments is not [("rest" or "on") and string name, ("make" or "all") and string part, string text]
            || !int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int seconds)
            || seconds < 1)
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        StreamInput input = name == "rest" ? StreamInput.Rest : StreamInput.EverythingOn;
        Console.WriteLine(part == "make" ? Make(input, seconds) : WholeChain.Run(input, seconds).Outcome.MarkCount);
        return 0;
    }

    private static long Make(StreamInput input, int seconds)
    {
        SensorStream stream = input.CreateStream(seconds);
        stream.KeepSettings();
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        long rows = 0;
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, stream.PositionTick + stream.Format.Clock.TicksPerSecond);
            rows += stream.Truth.Count;
            stream.Truth.Clear();
        }

        return rows;
    }
}
