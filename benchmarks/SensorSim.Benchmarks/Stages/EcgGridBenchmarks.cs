// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Body;
using SensorSim.Body.Ecg;
using SensorSim.Signals.Processes;

namespace SensorSim.Benchmarks.Stages;

/// <summary>Clean ECG from beats that are already planned: a figure is one ECG sample.</summary>
/// <remarks>Each invocation draws the same stretch with a copy of the renderer, whose 10 kB show as one byte per sample.</remarks>
[MemoryDiagnoser]
public class EcgGridBenchmarks
{
    // As long as the body's ring of beats remembers.
    private const int Seconds = 30;
    private const int RateHz = 250;

    private readonly double[] _buffer = new double[RateHz];
    private BodyModel _body = null!;
    private EcgGrid _start = null!;

    /// <summary>Plans the beats and draws the first second.</summary>
    [GlobalSetup]
    public void Setup()
    {
        _body = StreamInput.Rest.CreateBody();
        _body.PlanUntil(Seconds + 1 + BodyModel.LeadSeconds);
        _start = new EcgGrid(_body, new SampleGrid(0, 1.0 / RateHz));
        _start.Add(_buffer, 0);
    }

    /// <summary>66 beats a minute, blocks of a second.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * RateHz)]
    public double Add_Rest()
    {
        EcgGrid grid = _start.Copy(_body);
        for (int i = 1; i <= Seconds; i++)
        {
            _buffer.AsSpan().Clear();
            grid.Add(_buffer, i * RateHz);
        }

        return _buffer[0];
    }
}
