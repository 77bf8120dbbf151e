// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Assemblies;

/// <summary>A user's detector with values for its constants, which it gets at its first start: what it throws then is a verdict on it.</summary>
internal sealed class AssemblyDetector(IDetector inner, IReadOnlyDictionary<string, double> constants) : IDetector
{
    private bool _isSet;

    /// <inheritdoc/>
    public string Name => inner.Name;

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        if (!_isSet)
        {
            foreach ((string name, double value) in constants)
            {
                ((IDetectorConstants)inner).SetConstant(name, value);
            }

            _isSet = true;
        }

        inner.Start(format);
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output) => inner.Process(block, output);

    /// <inheritdoc/>
    public void Flush(DetectorOutput output) => inner.Flush(output);

    /// <inheritdoc/>
    public void Dispose() => inner.Dispose();
}
