// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.CLibraries;

/// <summary>A C library in a child process as a detector. After a failure the next start has a new child.</summary>
internal sealed class ChildDetector : IDetector
{
    private readonly CLibraryFactory _factory;
    private readonly IReadOnlyDictionary<string, double> _constants;
    private DetectorChild? _child;

    public ChildDetector(CLibraryFactory factory, string name, IReadOnlyDictionary<string, double> constants)
    {
        _factory = factory;
        _constants = constants;
        Name = name;
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        if (_child is { IsBroken: true })
        {
            Release();
        }

        _child ??= _factory.Take();
        FrameWriter frame = _child.Frame.Begin(FrameKind.Open);
        Messages.WriteFormat(frame, format);
        Messages.WriteValues(frame, _constants);
        _child.Ask(frame, FrameKind.Opened);
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        FrameWriter frame = _child!.Frame.Begin(FrameKind.Block);
        Messages.WriteBlock(frame, block);
        Messages.ReadAnswers(_child.Ask(frame, FrameKind.Answers), output);
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        Messages.ReadAnswers(_child!.Ask(_child.Frame.Begin(FrameKind.Flush), FrameKind.Answers), output);
    }

    /// <summary>Gives the child back for the next detector.</summary>
    public void Dispose() => Release();

    private void Release()
    {
        if (_child is { } child)
        {
            _child = null;
            _factory.Return(child);
        }
    }
}
