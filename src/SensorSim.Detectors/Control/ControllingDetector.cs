// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>A detector that also controls its sensor: marks are those of the detector inside, requests come from the control.</summary>
/// <remarks>A control looks at the codes alone, with integers, and allocates nothing. In an open loop its requests are ignored.</remarks>
public abstract class ControllingDetector : IDetector
{
    private readonly IDetector _inner;
    private readonly string _control;

    private protected ControllingDetector(IDetector inner, string control)
    {
        ArgumentNullException.ThrowIfNull(inner);
        _inner = inner;
        _control = control;
    }

    /// <inheritdoc/>
    public string Name => $"{_inner.Name} with {_control}";

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _inner.Start(format);
        Begin(format);
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        _inner.Process(block, output);
        Control(block, output.Requests);
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output) => _inner.Flush(output);

    /// <inheritdoc/>
    public void Dispose()
    {
        _inner.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>Prepares for a stream; drops all state.</summary>
    private protected abstract void Begin(StreamFormat format);

    /// <summary>Looks at the next block and asks for what it wants.</summary>
    private protected abstract void Control(SampleBlock block, EventRing<SettingsRequest> requests);
}
