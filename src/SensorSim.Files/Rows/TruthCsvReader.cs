// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Marks;

namespace SensorSim.Files.Rows;

/// <summary>Reads what <see cref="TruthCsvWriter"/> writes.</summary>
public sealed class TruthCsvReader : CsvRowReader<TruthEvent>
{
    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or its header is wrong.</exception>
    public TruthCsvReader(string path)
        : this(InputFiles.OpenRead(path), path)
    {
    }

    /// <summary>Reads from a stream.</summary>
    /// <param name="stream">The text; closed with the reader.</param>
    /// <param name="fileName">Name in messages.</param>
    /// <exception cref="InputFileException">The header is wrong.</exception>
    public TruthCsvReader(Stream stream, string fileName)
        : base(stream, fileName, TruthCsv.Columns, [], isStrict: true)
    {
    }

    private protected override TruthEvent Parse()
    {
        (BeatClass label, TruthFlags flags) = Label(5);
        return new TruthEvent(
            Table.Channel(0),
            Table.Kind(1),
            Table.Integer(2, long.MinValue / 4, long.MaxValue / 4),
            Table.OptionalNumber(3),
            Table.OptionalInteger(4, 0, long.MaxValue) ?? -1,
            label,
            flags);
    }

    private (BeatClass Label, TruthFlags Flags) Label(int column)
    {
        ReadOnlySpan<char> text = Table[column];
        if (text.IsEmpty)
        {
            return default;
        }

        TruthFlags flags = TruthFlags.None;
        BeatClass? label = null;
        foreach (Range range in text.Split(';'))
        {
            ReadOnlySpan<char> word = text[range];
            if (label is null && ClassOf(word) is BeatClass known)
            {
                label = known;
            }
            else if (label is not null && word.SequenceEqual(TruthCsv.Ambiguous))
            {
                flags |= TruthFlags.Ambiguous;
            }
            else if (label is not null && word.SequenceEqual(TruthCsv.Optional))
            {
                flags |= TruthFlags.Optional;
            }
            else if (label is not null && word.SequenceEqual(TruthCsv.Overlapped))
            {
                flags |= TruthFlags.Overlapped;
            }
            else
            {
                throw Table.Error(column, $"must be one of {string.Join(", ", TruthCsv.Classes)}, then ;ambiguous, ;optional or ;overlapped where it holds");
            }
        }

        return (label ?? BeatClass.None, flags);
    }

    private static BeatClass? ClassOf(ReadOnlySpan<char> word)
    {
        for (int i = 0; i < TruthCsv.Classes.Length; i++)
        {
            if (word.SequenceEqual(TruthCsv.Classes[i]))
            {
                return (BeatClass)i;
            }
        }

        return null;
    }
}
