// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Files.Output;
using SensorSim.Files.Recordings;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Exports;

/// <summary>The writers of a recording that is stored in several forms at once.</summary>
public static class RecordingWriters
{
    // Forty rows of truth a second at rest are 3 kB; a buffer evens out what is more than that for minutes.
    private const int BytesWithTruth = 6144;
    private const int BytesWithout = 1024;

    /// <summary>Opens a writer for each form, in the order of the forms.</summary>
    /// <param name="folder">Receives the files; committed by the caller.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="forms">The forms, each once.</param>
    /// <param name="facts">Where the stream comes from.</param>
    /// <param name="clocks">Clocks of the channels, so that truth gets its place in device time; empty where they are not known.</param>
    /// <param name="withTruth">Whether truth will be added: it takes room among the annotations of EDF and BDF.</param>
    /// <returns>The writers; the caller closes them.</returns>
    /// <exception cref="EdfRefusedException">EDF or BDF has no place for the stream.</exception>
    public static IReadOnlyList<IRecordingWriter> Open(
        OutputFolder folder, StreamFormat format, IEnumerable<RecordingForm> forms, RecordingFacts facts, IReadOnlyList<ChannelClock> clocks, bool withTruth)
    {
        ArgumentNullException.ThrowIfNull(forms);
        var options = new EdfWriteOptions { AnnotationBytes = withTruth ? BytesWithTruth : BytesWithout, Clocks = clocks };
        var writers = new List<IRecordingWriter>();
        try
        {
            foreach (RecordingForm form in forms.Order())
            {
                writers.Add(form switch
                {
                    RecordingForm.Csv => new RecordingFolderWriter(folder, format),
                    RecordingForm.Bdf => new EdfRecordingWriter(folder, format, options with { Container = EdfContainer.Bdf }),
                    RecordingForm.Edf => new EdfRecordingWriter(folder, format, options with { Container = EdfContainer.Edf }),
                    RecordingForm.Npy => new NpyRecordingWriter(folder, format, facts),
                    _ => new ParquetRecordingWriter(folder, format, facts),
                });
            }

            return writers;
        }
        catch
        {
            writers.ForEach(w => w.Dispose());
            throw;
        }
    }
}
