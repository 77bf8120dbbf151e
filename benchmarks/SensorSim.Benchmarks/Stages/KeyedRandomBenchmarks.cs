// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Benchmarks.Stages;

/// <summary>Normal draws: a figure is one draw, scaled and added to a buffer.</summary>
[MemoryDiagnoser]
public class KeyedRandomBenchmarks
{
    private const int Blocks = 60;

    private readonly KeyedRandom _random = new(1, "benchmark");
    private readonly double[] _buffer = new double[250];

    /// <summary>A second of ECG at a time; blocks begin at any place within a group of four.</summary>
    [Benchmark(OperationsPerInvoke = Blocks * 250)]
    public double AddNormals_BlocksOf250() => Add(250);

    /// <summary>A second of an optical slot at a time.</summary>
    [Benchmark(OperationsPerInvoke = Blocks * 100)]
    public double AddNormals_BlocksOf100() => Add(100);

    /// <summary>A second of one axis at a time.</summary>
    [Benchmark(OperationsPerInvoke = Blocks * 50)]
    public double AddNormals_BlocksOf50() => Add(50);

    /// <summary>One by one, as beats draw.</summary>
    [Benchmark(OperationsPerInvoke = Blocks * 250)]
    public double Normal_OneByOne()
    {
        double sum = 0;
        for (int i = 0; i < Blocks * 250; i++)
        {
            sum += _random.Normal(i);
        }

        return sum;
    }

    private double Add(int count)
    {
        Span<double> buffer = _buffer.AsSpan(0, count);
        buffer.Clear();
        for (int i = 0; i < Blocks; i++)
        {
            _random.AddNormals(buffer, (long)i * count, 1);
        }

        return buffer[0];
    }
}
