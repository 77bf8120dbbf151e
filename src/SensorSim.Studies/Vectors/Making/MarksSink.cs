// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Writes the marks of a run.</summary>
internal sealed class MarksSink(Stream stream, StreamFormat format) : IRunSink, IDisposable
{
    private readonly DetectionsCsvWriter _writer = new(stream, format);

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        // Only marks.
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // Only marks.
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark) => _writer.Write(mark);

    /// <inheritdoc/>
    public void Dispose() => _writer.Dispose();
}
