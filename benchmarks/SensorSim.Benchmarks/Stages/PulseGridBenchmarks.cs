// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Body;
using SensorSim.Body.Pulse;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Stages;

/// <summary>The arterial pulse from beats that are already planned: a figure is one optical sample.</summary>
/// <remarks>Each invocation draws the same stretch with a copy of the renderer, whose 9 kB show as three bytes per sample.</remarks>
[MemoryDiagnoser]
public class PulseGridBenchmarks
{
    // As long as the body's ring of beats remembers.
    private const int Seconds = 30;
    private const int RateHz = 100;

    private readonly double[] _buffer = new double[RateHz];
    private BodyModel _body = null!;
    private PulseGrid _start = null!;

    /// <summary>Plans the beats and draws the first second.</summary>
    [GlobalSetup]
    public void Setup()
    {
        _body = StreamInput.Rest.CreateBody();
        _body.PlanUntil(Seconds + 1 + BodyModel.LeadSeconds);
        _start = new PulseGrid(_body, new SampleGrid(0, 1.0 / RateHz), ChannelName.Infrared);
        _start.Add(_buffer, 0);
    }

    /// <summary>66 beats a minute, blocks of a second.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * RateHz)]
    public double Add_Rest()
    {
        PulseGrid grid = _start.Copy(_body);
        for (int i = 1; i <= Seconds; i++)
        {
            _buffer.AsSpan().Clear();
            grid.Add(_buffer, i * RateHz);
        }

        return _buffer[0];
    }
}
