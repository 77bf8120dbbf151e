// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.Text;

namespace SensorSim.Files.VectorSets;

/// <summary>Reads what <see cref="AcceptanceCsvWriter"/> writes.</summary>
public sealed class AcceptanceCsvReader : CsvRowReader<AcceptanceRow>
{
    private const long Least = long.MinValue / 4;
    private const long Most = long.MaxValue / 4;
    private static readonly string[] s_columns = AcceptanceRow.Header.Split(',');
    private string _requirement = "";

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or its header is wrong.</exception>
    public AcceptanceCsvReader(string path)
        : this(InputFiles.OpenRead(path), path)
    {
    }

    /// <summary>Reads from a stream.</summary>
    /// <param name="stream">The text; closed with the reader.</param>
    /// <param name="fileName">Name in messages.</param>
    /// <exception cref="InputFileException">The header is wrong.</exception>
    public AcceptanceCsvReader(Stream stream, string fileName)
        : base(stream, fileName, s_columns, [], isStrict: true)
    {
    }

    private protected override AcceptanceRow Parse()
    {
        long begin = Table.Integer(4, Least, Most);
        long end = Table.Integer(5, Least, Most);
        if (end < begin)
        {
            throw Table.Error(5, "must not be before begin_ns");
        }

        double low = Table.OptionalNumber(6);
        double high = Table.OptionalNumber(7);
        if (double.IsNaN(low) != double.IsNaN(high) || low > high)
        {
            throw Table.Error(7, "and low must both be there or both be missing, low not above high");
        }

        // Rows of one requirement follow each other: no text for each of them.
        if (!Table[0].SequenceEqual(_requirement))
        {
            _requirement = Table[0].ToString();
        }

        return new AcceptanceRow(
            _requirement,
            Table[1].IsEmpty ? null : Table.Channel(1),
            Table.Kind(2),
            Rule(),
            begin,
            end,
            low,
            high,
            Table.OptionalInteger(8, Least, Most),
            Table.OptionalInteger(9, 0, Most) ?? -1);
    }

    private AcceptanceRule Rule()
    {
        for (int i = 0; i < AcceptanceRules.Words.Count; i++)
        {
            if (Table[3].SequenceEqual(AcceptanceRules.Words[i]))
            {
                return (AcceptanceRule)i;
            }
        }

        throw Table.Error(3, $"must be one of {string.Join(", ", AcceptanceRules.Words)}");
    }
}
