// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.CLibraries;

/// <summary>A C library in a child process as a detector. After a failure the next start has a new child.</summary>
internal sealed class ChildDetector : IDetector
{
    private const string WhileClosed = ", while it was closed";

    private readonly CLibraryFactory _factory;
    private readonly IReadOnlyDictionary<string, double> _constants;
    private readonly DetectorOutput _answers = new(DetectorOutput.DefaultMarkCapacity + 1, DetectorOutput.DefaultRequestCapacity + 1);
    private readonly Func<FrameReader, bool> _readAnswers;
    private DetectorChild? _child;

    public ChildDetector(CLibraryFactory factory, string name, IReadOnlyDictionary<string, double> constants)
    {
        _factory = factory;
        _constants = constants;
        _readAnswers = ReadAnswers;
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
        _child.Ask(frame, FrameKind.Opened, static _ => true);
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        FrameWriter frame = _child!.Frame.Begin(FrameKind.Block);
        Messages.WriteBlock(frame, block);
        Answer(_child, frame, output);
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        Answer(_child!, _child!.Frame.Begin(FrameKind.Flush), output);
        try
        {
            _child.Ask(_child.Frame.Begin(FrameKind.Close), FrameKind.Closed, static _ => true);
        }
        catch (DetectorCrashedException e)
        {
            throw new DetectorCrashedException(e.Message + WhileClosed);
        }
        catch (DetectorHungException e)
        {
            throw new DetectorHungException(e.Message + WhileClosed);
        }
    }

    /// <summary>Gives the child back for the next detector.</summary>
    public void Dispose() => Release();

    // Read into rings of its own first: of a reply that breaks off nothing is given.
    private void Answer(DetectorChild child, FrameWriter request, DetectorOutput output)
    {
        child.Ask(request, FrameKind.Answers, _readAnswers);
        while (_answers.Marks.TryTake(out Mark mark))
        {
            output.Marks.Add(mark);
        }

        while (_answers.Requests.TryTake(out SettingsRequest settings))
        {
            output.Requests.Add(settings);
        }
    }

    private bool ReadAnswers(FrameReader reply)
    {
        _answers.Marks.Clear();
        _answers.Requests.Clear();
        Messages.ReadAnswers(reply, _answers);
        return true;
    }

    private void Release()
    {
        if (_child is { } child)
        {
            _child = null;
            _factory.Return(child);
        }
    }
}
