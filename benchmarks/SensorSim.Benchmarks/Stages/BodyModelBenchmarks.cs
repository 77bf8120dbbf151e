// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Body;

namespace SensorSim.Benchmarks.Stages;

/// <summary>Planning of beats with their truth: a figure is per sample of the whole stream (700 in a second).</summary>
[MemoryDiagnoser]
public class BodyModelBenchmarks
{
    private const int Seconds = 60;

    private readonly BodyModel _off = StreamInput.EverythingOff.CreateBody();
    private readonly BodyModel _rest = StreamInput.Rest.CreateBody();
    private readonly BodyModel _on = StreamInput.EverythingOn.CreateBody();
    private long _offSeconds;
    private long _restSeconds;
    private long _onSeconds;

    /// <summary>65 beats a minute, no variability.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * StreamInput.SamplesPerSecond)]
    public int PlanUntil_EverythingOff() => Plan(_off, ref _offSeconds);

    /// <summary>66 beats a minute.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * StreamInput.SamplesPerSecond)]
    public int PlanUntil_Rest() => Plan(_rest, ref _restSeconds);

    /// <summary>80 beats a minute.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * StreamInput.SamplesPerSecond)]
    public int PlanUntil_EverythingOn() => Plan(_on, ref _onSeconds);

    private static int Plan(BodyModel body, ref long seconds)
    {
        int rows = 0;
        for (int i = 0; i < Seconds; i++)
        {
            body.PlanUntil(++seconds);
            rows += body.Truth.Count;
            body.Truth.Clear();
        }

        return rows;
    }
}
