// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;

namespace SensorSim.Files.Rows;

/// <summary>Reads what <see cref="AcquisitionCsvWriter"/> writes.</summary>
public sealed class AcquisitionCsvReader : CsvRowReader<AcquisitionRow>
{
    private static readonly string[] s_columns = AcquisitionRow.Header.Split(',');

    private readonly SharedWords _words = new();

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or its header is wrong.</exception>
    public AcquisitionCsvReader(string path)
        : this(InputFiles.OpenRead(path), path)
    {
    }

    /// <summary>Reads from a stream.</summary>
    /// <param name="stream">The text; closed with the reader.</param>
    /// <param name="fileName">Name in messages.</param>
    /// <exception cref="InputFileException">The header is wrong.</exception>
    public AcquisitionCsvReader(Stream stream, string fileName)
        : base(stream, fileName, s_columns, [], isStrict: true)
    {
    }

    private protected override AcquisitionRow Parse()
    {
        if (!AcquisitionRow.IsItem(Table[1]))
        {
            throw Table.Error(1, "must be a word of a-z, 0-9 and underscores, such as declared_delay_ns");
        }

        long begin = Table.Integer(2, long.MinValue / 4, long.MaxValue / 4);
        long? end = Table.OptionalInteger(3, long.MinValue / 4, long.MaxValue / 4);
        if (end < begin)
        {
            throw Table.Error(3, "must not be before begin_ns");
        }

        return new AcquisitionRow(
            Table.Channel(0), _words.Of(Table[1]), begin, end, Table.OptionalNumber(4), _words.Of(Table[5]), _words.Of(Table[6]));
    }
}
