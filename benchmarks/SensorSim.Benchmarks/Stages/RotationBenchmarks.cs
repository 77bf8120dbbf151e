// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Benchmarks.Stages;

/// <summary>Sines of a wandering phase: a figure is one sine added to one sample.</summary>
[MemoryDiagnoser]
public class RotationBenchmarks
{
    private const int Seconds = 64;

    private static readonly WanderingPhase s_phase = new(new KeyedRandom(1, "benchmark.phase"), 50.03, 0.02, 0.0017, 0.033);

    private readonly double[] _buffer = new double[250];
    private readonly Rotation _rotation = new(s_phase, 1);

    /// <summary>Mains on the ECG: an anchor every 64 samples at 250 Hz, blocks of a second.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 250)]
    public double Add_Mains250Hz() => Add(250);

    /// <summary>Flicker on a slot: an anchor every 64 samples at 100 Hz.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 100)]
    public double Add_Flicker100Hz() => Add(100);

    /// <summary>Movement on an axis: an anchor every 64 samples at 50 Hz.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 50)]
    public double Add_Stride50Hz() => Add(50);

    private double Add(int rateHz)
    {
        Span<double> buffer = _buffer.AsSpan(0, rateHz);
        buffer.Clear();
        var grid = new SampleGrid(0, 1.0 / rateHz);
        for (int i = 0; i < Seconds; i++)
        {
            _rotation.Add(buffer, grid, (long)i * rateHz, 1, 0);
        }

        return buffer[0];
    }
}
