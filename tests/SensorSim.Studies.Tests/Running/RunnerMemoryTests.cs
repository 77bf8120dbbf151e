// SPDX-License-Identifier: MIT
using NUnit.Framework;
using SensorSim.Detectors;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Studies.Running;
using SensorSim.Tests.Shared;

namespace SensorSim.Studies.Tests.Running;

/// <summary>The whole chain, made, detected and scored, allocates nothing once its warm-up is over: not now and then either.</summary>
public sealed class RunnerMemoryTests
{
    // The longest lead-in is 300 s; with everything on the first pulse is found after 649 s, and a row of scores takes its room with its first event.
    private const int WarmUpSeconds = 700;
    private const int Seconds = 1000;

    // Methods compiled anew allocate on the thread that runs them, but not in the same second of every round; what the chain allocates is always there.
    private const int Rounds = 3;

    [TestCase("rest-finger.toml")]
    [TestCase("all-on.toml")]
    public void Step_AfterWarmUp_AllocatesNothing(string file)
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(CCompiler.Root, "waveforms", "scenarios", file));
        var least = new long[Seconds];
        Array.Fill(least, long.MaxValue);
        for (int round = 0; round < Rounds; round++)
        {
            Measure(scenario, least);
        }

        Assert.That(least.Sum(), Is.Zero, $"largest in a block: {least.Max()} bytes, in second {WarmUpSeconds + Array.IndexOf(least, least.Max())}");
    }

    private static void Measure(Scenario scenario, long[] least)
    {
        var stream = new SensorStream(scenario.Values, 1, 1e6);
        using var detector = new LibraryDetector();
        detector.Start(stream.Format);
        var runner = new Runner(stream, stream.Truth, detector, Runs.Scorer(stream));
        for (int i = -WarmUpSeconds; i < least.Length; i++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            runner.Step();
            if (i >= 0)
            {
                least[i] = Math.Min(least[i], GC.GetAllocatedBytesForCurrentThread() - before);
            }
        }
    }
}
