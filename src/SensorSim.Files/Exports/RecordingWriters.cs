// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Files.Output;
using SensorSim.Files.Recordings;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Exports;

/// <summary>The writers of a recording that is stored in several forms at once.</summary>
public static class RecordingWriters
{
    /// <summary>Opens a writer for each form, in the order of the forms.</summary>
    /// <param name="folder">Receives the files; committed by the caller.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="forms">The forms, each once.</param>
    /// <param name="facts">Where the stream comes from.</param>
    /// <param name="clocks">Clocks of the channels, so that truth gets its place in device time; empty where they are not known.</param>
    /// <returns>The writers; the caller closes them.</returns>
    /// <exception cref="EdfRefusedException">EDF or BDF has no place for the stream.</exception>
    public static IReadOnlyList<IRecordingWriter> Open(
        OutputFolder folder, StreamFormat format, IEnumerable<RecordingForm> forms, RecordingFacts facts, IReadOnlyList<ChannelClock> clocks)
    {
        ArgumentNullException.ThrowIfNull(forms);
        var writers = new List<IRecordingWriter>();
        try
        {
            foreach (RecordingForm form in forms.Order())
            {
                writers.Add(form switch
                {
                    RecordingForm.Csv => new RecordingFolderWriter(folder, format),
                    RecordingForm.Bdf => new EdfRecordingWriter(folder, format, new EdfWriteOptions { Container = EdfContainer.Bdf, Clocks = clocks }),
                    RecordingForm.Edf => new EdfRecordingWriter(folder, format, new EdfWriteOptions { Container = EdfContainer.Edf, Clocks = clocks }),
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
