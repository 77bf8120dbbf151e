// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Benchmarks.Stages;

/// <summary>Slow fluctuations from nodes joined by cubics: a figure is one sample.</summary>
[MemoryDiagnoser]
public class SmoothNoiseBenchmarks
{
    private const int Seconds = 60;
    private const int RateHz = 250;

    private readonly double[] _buffer = new double[RateHz];
    private readonly SmoothNoise _noise = new(new KeyedRandom(1, "benchmark.wander"), 0.5, 1);

    /// <summary>Baseline wander of the ECG, a node every half second, blocks of a second.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * RateHz)]
    public double Add_Wander250Hz()
    {
        _buffer.AsSpan().Clear();
        var grid = new SampleGrid(0, 1.0 / RateHz);
        for (int i = 0; i < Seconds; i++)
        {
            _noise.Add(_buffer, grid, i * RateHz);
        }

        return _buffer[0];
    }
}
