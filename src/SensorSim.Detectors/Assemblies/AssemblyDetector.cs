// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Assemblies;

/// <summary>A user's detector with values for its constants, which it gets at its first start: what it throws then is a verdict on it.</summary>
/// <param name="inner">The user's object.</param>
/// <param name="file">File of its assembly.</param>
/// <param name="constants">Values by name.</param>
internal sealed class AssemblyDetector(IDetector inner, string file, IReadOnlyDictionary<string, double> constants) : IDetector
{
    private bool _isSet;

    /// <inheritdoc/>
    public string Name => OneLine.Of(inner.Name);

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

    /// <summary>Lets go of it. What it throws comes too late for a verdict and is kept as a complaint.</summary>
    public void Dispose()
    {
        try
        {
            inner.Dispose();
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            GuestCode.Complain($"{file}: the detector threw {e.GetType().Name} when it was disposed of: {OneLine.Of(e.Message)}");
        }
    }
}
