// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.Text;

namespace SensorSim.Files.VectorSets;

/// <summary>Reads answers: <c>channel,kind,time_ns</c> must be there; <c>case</c> and the other columns of <c>detections.csv</c> may be. A row with a case and nothing else says that the case was run.</summary>
public sealed class AnswerCsvReader : CsvRowReader<AnswerRow>
{
    private const int Case = 10;
    private static readonly string[] s_required = ["channel", "kind", "time_ns"];
    private static readonly string[] s_optional =
        ["sample", "value", "quality", "paired_time_ns", "window_begin_ns", "window_end_ns", "emitted_time_ns", "case"];

    private string _case = "";

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or its header is wrong.</exception>
    public AnswerCsvReader(string path)
        : this(InputFiles.OpenRead(path), path)
    {
    }

    /// <summary>Reads from a stream.</summary>
    /// <param name="stream">The text; closed with the reader.</param>
    /// <param name="fileName">Name in messages.</param>
    /// <exception cref="InputFileException">The header is wrong.</exception>
    public AnswerCsvReader(Stream stream, string fileName)
        : base(stream, fileName, s_required, s_optional, isStrict: true)
    {
        Columns = [.. s_required.Concat(s_optional).Where((_, i) => Table.Has(i))];
    }

    /// <summary>The columns that the file has.</summary>
    public IReadOnlyList<string> Columns { get; }

    /// <summary>Whether the file says which case each answer belongs to.</summary>
    public bool HasCases => Table.Has(Case);

    /// <summary>Line of the latest row, from 1.</summary>
    public long Line => Table.LineNumber;

    private protected override AnswerRow Parse()
    {
        if (!Table[Case].SequenceEqual(_case))
        {
            _case = Table[Case].ToString();
        }

        if (_case.Length > 0 && Table[0].IsEmpty && Table[1].IsEmpty && Table[2].IsEmpty)
        {
            return new AnswerRow(_case, default, SaysWhenEmitted: false) { IsNothing = true };
        }

        return new AnswerRow(_case, DetectionsCsvReader.RowOf(Table), SaysWhenEmitted: !Table[9].IsEmpty);
    }
}
