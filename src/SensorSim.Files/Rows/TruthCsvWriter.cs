// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>Writes <c>truth.csv</c>: <c>channel,kind,time_ns,value,beat_id,label</c>, body time.</summary>
/// <remarks>
/// The label is the class of the beat in snake_case, with <c>;ambiguous</c>, <c>;optional</c> and <c>;overlapped</c> appended where
/// they hold, and empty when there is nothing to say. The value is empty when the kind has none, the beat when the row belongs to none.
/// </remarks>
public sealed class TruthCsvWriter : IDisposable
{
    private const int FlagWords = 8;
    private static readonly string[] s_labels = MakeLabels();
    private readonly CsvWriter _csv;

    /// <summary>Starts the file.</summary>
    /// <param name="stream">Receives the text; closed with the writer.</param>
    public TruthCsvWriter(Stream stream) => _csv = new CsvWriter(stream, TruthCsv.Header);

    /// <summary>Writes a row.</summary>
    /// <param name="truth">The row.</param>
    public void Write(in TruthEvent truth)
    {
        _csv.Text(truth.Channel.Text());
        _csv.Text(truth.Kind.Text());
        _csv.Integer(truth.TimeNs);
        _csv.Number(truth.Value);
        _csv.Integer(truth.BeatId < 0 ? null : truth.BeatId);
        _csv.Text(s_labels[((int)truth.Label * FlagWords) + (int)truth.Flags]);
        _csv.EndRow();
    }

    /// <inheritdoc/>
    public void Dispose() => _csv.Dispose();

    private static string[] MakeLabels()
    {
        var labels = new string[TruthCsv.Classes.Length * FlagWords];
        for (int i = 0; i < labels.Length; i++)
        {
            var flags = (TruthFlags)(i % FlagWords);
            labels[i] = i == 0 ? "" : TruthCsv.Classes[i / FlagWords]
                + ((flags & TruthFlags.Ambiguous) != 0 ? $";{TruthCsv.Ambiguous}" : "")
                + ((flags & TruthFlags.Optional) != 0 ? $";{TruthCsv.Optional}" : "")
                + ((flags & TruthFlags.Overlapped) != 0 ? $";{TruthCsv.Overlapped}" : "");
        }

        return labels;
    }
}
