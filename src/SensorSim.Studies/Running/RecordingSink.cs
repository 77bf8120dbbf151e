// SPDX-License-Identifier: MIT
using SensorSim.Files.Exports;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Stores what passes during a run in one or several forms.</summary>
public sealed class RecordingSink : IRunSink, IDisposable
{
    private readonly IRecordingWriter[] _writers;

    /// <summary>Puts the writers together.</summary>
    /// <param name="writers">The writers; closed with the sink.</param>
    public RecordingSink(IEnumerable<IRecordingWriter> writers) => _writers = [.. writers];

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        foreach (IRecordingWriter writer in _writers)
        {
            writer.Write(block);
        }
    }

    /// <inheritdoc/>
    public void OnAcquisition(in AcquisitionEvent happened)
    {
        foreach (IRecordingWriter writer in _writers)
        {
            writer.AddAcquisition(happened);
        }
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        foreach (IRecordingWriter writer in _writers)
        {
            writer.AddTruth(truth);
        }
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        foreach (IRecordingWriter writer in _writers)
        {
            writer.AddMark(mark);
        }
    }

    /// <summary>Finishes and closes every file.</summary>
    public void Complete()
    {
        foreach (IRecordingWriter writer in _writers)
        {
            writer.Complete();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (IRecordingWriter writer in _writers)
        {
            writer.Dispose();
        }
    }
}
