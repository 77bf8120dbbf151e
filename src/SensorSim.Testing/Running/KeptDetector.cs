// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>A detector of which something else decides when it ends.</summary>
/// <param name="inner">The detector.</param>
/// <param name="factory">Its factory, which ends with it and ends it; null: whoever made the detector disposes of it.</param>
internal sealed class KeptDetector(IDetector inner, IDetectorFactory? factory = null) : IDetector
{
    public string Name => inner.Name;

    public void Start(StreamFormat format) => inner.Start(format);

    public void Process(SampleBlock block, DetectorOutput output) => inner.Process(block, output);

    public void Flush(DetectorOutput output) => inner.Flush(output);

    public void Dispose()
    {
        if (factory is not null)
        {
            inner.Dispose();
            factory.Dispose();
        }
    }
}
