// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Writes the samples of a run as BDF+, with gaps, status words and acquisition as annotations.</summary>
internal sealed class BdfSink : IRunSink, IDisposable
{
    private readonly EdfRecordingWriter _writer;

    /// <summary>Starts the file.</summary>
    /// <param name="create">Starts a file of a name.</param>
    /// <param name="stream">The stream, at its start.</param>
    /// <exception cref="EdfRefusedException">The format cannot hold the stream.</exception>
    public BdfSink(Func<string, Stream> create, IToldStream stream) => _writer = new EdfRecordingWriter(create, stream.Format, new EdfWriteOptions
    {
        Container = EdfContainer.Bdf,
        BaseName = "stimulus",
        EndTick = stream.EndTick,

        // Room for gaps and status words; nothing else is told there.
        AnnotationBytes = 512,
    });

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block) => _writer.Write(block);

    /// <inheritdoc/>
    public void OnAcquisition(in AcquisitionEvent happened) => _writer.AddAcquisition(happened);

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // What a detector is given holds no truth.
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        // What a detector answers is no part of what it is given.
    }

    /// <summary>Finishes the file.</summary>
    public void Complete() => _writer.Complete();

    /// <inheritdoc/>
    public void Dispose() => _writer.Dispose();
}
