// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Sensing;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Stages;

/// <summary>Making: all seven channels, converted, and truth. A figure is one sample of the stream (700 in a second).</summary>
[MemoryDiagnoser]
public class SensorStreamBenchmarks
{
    private const int Seconds = 60;

    private readonly SensorStream _off = StreamInput.EverythingOff.CreateStream();
    private readonly SensorStream _rest = StreamInput.Rest.CreateStream();
    private readonly SensorStream _on = StreamInput.EverythingOn.CreateStream();
    private SampleBlock _block = null!;

    /// <summary>Makes the block, the same for all.</summary>
    [GlobalSetup]
    public void Setup() => _block = new SampleBlock(_off.Format, _off.Format.Clock.TicksPerSecond);

    /// <summary>No disturbance, reads of a second.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * StreamInput.SamplesPerSecond)]
    public int Read_EverythingOff() => Read(_off);

    /// <summary>A person at rest.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * StreamInput.SamplesPerSecond)]
    public int Read_Rest() => Read(_rest);

    /// <summary>Every disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * StreamInput.SamplesPerSecond)]
    public int Read_EverythingOn() => Read(_on);

    // As a run in an open loop reads it.
    private int Read(SensorStream stream)
    {
        stream.KeepSettings();
        long second = stream.Format.Clock.TicksPerSecond;
        for (int i = 0; i < Seconds; i++)
        {
            stream.Read(_block, stream.PositionTick + second);
            stream.Truth.Clear();
        }

        return _block.Channels[0].Codes[0];
    }
}
