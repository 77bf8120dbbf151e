// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Detectors;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Stages;

/// <summary>The library over a minute in memory, started anew each time: a figure is one sample of the stream (700 in a second).</summary>
[MemoryDiagnoser]
public class LibraryDetectorBenchmarks
{
    private readonly Recording _rest = Recording.Of(StreamInput.Rest, out _);
    private readonly Recording _on = Recording.Of(StreamInput.EverythingOn, out _);
    private readonly StreamFormat _format = StreamInput.Rest.CreateStream().Format;
    private readonly LibraryDetector _detector = new();
    private readonly DetectorOutput _output = new();

    /// <summary>Gives the detector back.</summary>
    [GlobalCleanup]
    public void Cleanup() => _detector.Dispose();

    /// <summary>A person at rest.</summary>
    [Benchmark(OperationsPerInvoke = Recording.Seconds * StreamInput.SamplesPerSecond)]
    public int Process_Rest() => Process(_rest);

    /// <summary>Every disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Recording.Seconds * StreamInput.SamplesPerSecond)]
    public int Process_EverythingOn() => Process(_on);

    private int Process(Recording recording)
    {
        int marks = 0;
        _detector.Start(_format);
        for (int i = 0; i < Recording.Seconds; i++)
        {
            _detector.Process(recording.Blocks[i], _output);
            marks += _output.Marks.Count;
            _output.Marks.Clear();
            _output.Requests.Clear();
        }

        return marks;
    }
}
