// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Tests.Detectors;

/// <summary>A detector made of what a test wants it to do.</summary>
internal sealed class TestDetector : IDetector
{
    public Action<StreamFormat> OnStart { get; init; } = _ => { };

    public Action<SampleBlock, DetectorOutput> OnProcess { get; init; } = (_, _) => { };

    public Action<DetectorOutput> OnFlush { get; init; } = _ => { };

    public string Name => "test 1.0";

    public void Start(StreamFormat format) => OnStart(format);

    public void Process(SampleBlock block, DetectorOutput output) => OnProcess(block, output);

    public void Flush(DetectorOutput output) => OnFlush(output);

    public void Dispose()
    {
        // Nothing is held.
    }
}
