// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Sensing.Conversion;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Stages;

/// <summary>From millivolts to codes: a figure is one sample.</summary>
[MemoryDiagnoser]
public class ConverterBenchmarks
{
    private const int Blocks = 60;
    private const int Samples = 250;

    private readonly double[] _inRange = new double[Samples];
    private readonly double[] _halfOver = new double[Samples];
    private readonly int[] _codes = new int[Samples];
    private readonly ushort[] _status = new ushort[Samples];
    private readonly Converter _converter = new(new ChannelFormat
    {
        Name = ChannelName.Ecg,
        Device = "sensor",
        RateHz = 250,
        Bits = 16,
        IsSigned = true,
        UnitPerCode = 10.0 / 65536,
    });

    /// <summary>Draws the values: all within the range, and about every second one outside.</summary>
    [GlobalSetup]
    public void Setup()
    {
        var random = new KeyedRandom(1, "benchmark.voltage");
        random.AddNormals(_inRange, 0, 0.5);
        random.AddNormals(_halfOver, 0, 7.4);
    }

    /// <summary>No sample out of range, as nearly always.</summary>
    [Benchmark(OperationsPerInvoke = Blocks * Samples)]
    public int Convert_InRange() => Convert(_inRange);

    /// <summary>Half of the samples out of range, in no order: the worst case.</summary>
    [Benchmark(OperationsPerInvoke = Blocks * Samples)]
    public int Convert_HalfOverRange() => Convert(_halfOver);

    private int Convert(double[] values)
    {
        for (int i = 0; i < Blocks; i++)
        {
            _converter.Convert(values, _codes, _status);
        }

        return _codes[0];
    }
}
