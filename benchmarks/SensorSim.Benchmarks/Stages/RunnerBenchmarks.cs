// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Detectors;
using SensorSim.Sensing;
using SensorSim.Studies.Running;

namespace SensorSim.Benchmarks.Stages;

/// <summary>The whole chain, made, converted, detected, scored: a figure is one sample of the stream (700 in a second).</summary>
[MemoryDiagnoser]
public class RunnerBenchmarks
{
    private const int Seconds = 60;

    // The lead-in of an endless record is five minutes: scoring must have begun.
    private const int LeadInSeconds = 360;

    private readonly LibraryDetector _restDetector = new();
    private readonly LibraryDetector _onDetector = new();
    private Runner _rest = null!;
    private Runner _on = null!;

    /// <summary>Starts both runs and passes their lead-in.</summary>
    [GlobalSetup]
    public void Setup()
    {
        _rest = Create(StreamInput.Rest, _restDetector);
        _on = Create(StreamInput.EverythingOn, _onDetector);
    }

    /// <summary>Gives the detectors back.</summary>
    [GlobalCleanup]
    public void Cleanup()
    {
        _restDetector.Dispose();
        _onDetector.Dispose();
    }

    /// <summary>A person at rest, blocks of a second.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * StreamInput.SamplesPerSecond)]
    public void Step_Rest() => Step(_rest);

    /// <summary>Every disturbance, blocks of a second.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * StreamInput.SamplesPerSecond)]
    public void Step_EverythingOn() => Step(_on);

    private static Runner Create(StreamInput input, LibraryDetector detector)
    {
        SensorStream stream = input.CreateStream();
        detector.Start(stream.Format);
        var runner = new Runner(stream, stream.Truth, detector, LibraryRows.CreateScorer(stream));
        for (int i = 0; i < LeadInSeconds; i++)
        {
            runner.Step();
        }

        return runner;
    }

    private static void Step(Runner runner)
    {
        for (int i = 0; i < Seconds; i++)
        {
            runner.Step();
        }
    }
}
