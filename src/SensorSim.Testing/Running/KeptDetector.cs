// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>A detector that outlives the run it is used in: whoever made it disposes of it.</summary>
internal sealed class KeptDetector(IDetector inner) : IDetector
{
    public string Name => inner.Name;

    public void Start(StreamFormat format) => inner.Start(format);

    public void Process(SampleBlock block, DetectorOutput output) => inner.Process(block, output);

    public void Flush(DetectorOutput output) => inner.Flush(output);

    public void Dispose()
    {
        // Not ours.
    }
}
