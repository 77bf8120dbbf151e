// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.Text;

namespace SensorSim.Files.VectorSets;

/// <summary>Reads answers: <c>channel,kind,time_ns</c> must be there; <c>case</c>, <c>value</c> and <c>emitted_time_ns</c> may be; other columns are passed over.</summary>
public sealed class AnswerCsvReader : CsvRowReader<AnswerRow>
{
    private const long Least = long.MinValue / 4;
    private const long Most = long.MaxValue / 4;
    private static readonly string[] s_required = ["channel", "kind", "time_ns"];
    private static readonly string[] s_optional = ["case", "value", "emitted_time_ns"];
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
        : base(stream, fileName, s_required, s_optional, isStrict: false)
    {
        FileName = fileName;
    }

    /// <summary>Name of the file, for messages.</summary>
    public string FileName { get; }

    /// <summary>Whether the file says which case each answer belongs to.</summary>
    public bool HasCases => Table.Has(3);

    /// <summary>Line of the latest row, from 1.</summary>
    public long Line => Table.LineNumber;

    private protected override AnswerRow Parse()
    {
        if (!Table[3].SequenceEqual(_case))
        {
            _case = Table[3].ToString();
        }

        return new AnswerRow(
            _case, Table.Channel(0), Table.Kind(1), Table.Integer(2, Least, Most), Table.OptionalNumber(4), Table.OptionalInteger(5, Least, Most));
    }
}
