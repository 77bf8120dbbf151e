// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Files.Exports;
using SensorSim.Files.Output;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Output;

/// <summary>A recording that is being stored in several forms, and what there is to say about them.</summary>
internal sealed class StoredForms : IRunSink, IDisposable
{
    private readonly IReadOnlyList<IRecordingWriter> _writers;
    private readonly RecordingSink _sink;

    /// <summary>Starts the files.</summary>
    public StoredForms(OutputFolder folder, StreamFormat format, IEnumerable<RecordingForm> forms, RecordingFacts facts, IReadOnlyList<ChannelClock> clocks, bool withTruth)
    {
        _writers = RecordingWriters.Open(folder, format, forms, facts, clocks, withTruth);
        _sink = new RecordingSink(_writers);
    }

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block) => _sink.OnBlock(block);

    /// <inheritdoc/>
    public void OnAcquisition(in AcquisitionEvent happened) => _sink.OnAcquisition(happened);

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth) => _sink.OnTruth(truth);

    /// <inheritdoc/>
    public void OnMark(in Mark mark) => _sink.OnMark(mark);

    /// <summary>Finishes and closes every file.</summary>
    public void Complete() => _sink.Complete();

    /// <summary>Says what a form had no place for.</summary>
    public void Tell(Terminal terminal)
    {
        foreach (EdfRecordingWriter edf in _writers.OfType<EdfRecordingWriter>())
        {
            foreach (string note in edf.Notes)
            {
                terminal.Say(note);
            }

            if (edf.AnnotationsLost > 0)
            {
                terminal.Say(FormattableString.Invariant(
                    $"{string.Join(", ", edf.FileNames)}: {edf.AnnotationsLost} annotations found no place; truth.csv and acquisition.csv hold all"));
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _sink.Dispose();
}
