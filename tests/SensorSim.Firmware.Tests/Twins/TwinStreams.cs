// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Tests.Robustness;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>Runs streams through both libraries.</summary>
internal static class TwinStreams
{
    /// <summary>The begin of a scenario in blocks of a second.</summary>
    public static Both Scenario(string path, int seconds, TwinOptions options, TwinLibrary twin, StreamDump? dump = null) =>
        Run(ScenarioReader.ReadFile(Path.Combine(CCompiler.Root, path)).CreateStream(), seconds, options, twin, dump);

    /// <summary>A scenario that is no file.</summary>
    public static Both Text(string text, TwinOptions options, TwinLibrary twin) =>
        Run(ScenarioReader.ReadText(text, "text.toml").CreateStream(), int.MaxValue, options, twin, null);

    private static Both Run(SensorStream stream, int seconds, TwinOptions options, TwinLibrary twin, StreamDump? dump)
    {
        var both = new Both(stream.Format, options, twin, dump);
        long second = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, second);
        for (int i = 0; i < seconds && stream.PositionTick < stream.EndTick && !both.IsRefused; i++)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + second));
            both.Take(block);
        }

        both.Flush();
        return both;
    }

    /// <summary>A stream of random codes, flags, rates and gaps, cut at random.</summary>
    public static Both Hostile(int seed, int durationS, int silenceS, TwinOptions options, TwinLibrary twin, StreamDump? dump = null)
    {
        var stream = new HostileStream(seed, durationS, silenceS);
        var both = new Both(stream.Format, options, twin, dump);
        var random = new Random(seed);
        long second = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, second + 1);
        for (long tick = 0; tick < stream.EndTick && !both.IsRefused;)
        {
            long begin = tick;
            tick = Math.Min(stream.EndTick, tick + 1 + (long)(second * Math.Pow(random.NextDouble(), 4)));
            stream.Fill(block, begin, tick);
            both.Take(block);
        }

        both.Flush();
        return both;
    }
}
