// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Files.Text;

/// <summary>Reads a comma-separated table with a header line, row by row, without an object per row.</summary>
/// <remarks>Columns may stand in any order. There is no quoting: no field of the project's files needs it.</remarks>
internal sealed class CsvTable : IDisposable
{
    private const int MostColumns = 64;
    private readonly LineReader _lines;
    private readonly string[] _names;
    private readonly bool _isStrict;
    private readonly int[] _place;
    private readonly int[] _starts = new int[MostColumns + 1];
    private readonly int _fieldCount;

    /// <summary>Opens a table and reads its header.</summary>
    /// <param name="stream">The file; closed with the table.</param>
    /// <param name="fileName">Its name in messages.</param>
    /// <param name="required">Columns that must be there; they get the numbers from 0 on.</param>
    /// <param name="optional">Columns that may be there; they get the following numbers.</param>
    /// <param name="isStrict">A file of our own: no other column is allowed, and the last line must be complete.</param>
    public CsvTable(Stream stream, string fileName, string[] required, string[] optional, bool isStrict)
    {
        _lines = new LineReader(stream, fileName);
        _names = [.. required, .. optional];
        _isStrict = isStrict;
        _place = new int[_names.Length];
        Array.Fill(_place, -1);
        try
        {
            _fieldCount = ReadHeader(required.Length);
        }
        catch
        {
            _lines.Dispose();
            throw;
        }
    }

    public long LineNumber => _lines.LineNumber;

    /// <summary>A field of the current row; empty when the column is not there.</summary>
    public ReadOnlySpan<char> this[int column] => _place[column] < 0 ? default : Field(_place[column]);

    public bool Has(int column) => _place[column] >= 0;

    public bool ReadRow()
    {
        if (!_lines.Read())
        {
            return false;
        }

        if (_isStrict && !_lines.IsTerminated)
        {
            throw _lines.Error(_lines.Line.Length + 1, "the file ends inside this line; it must end with a line feed. Is the file cut off?");
        }

        int count = Split();
        if (count != _fieldCount)
        {
            throw _lines.Error(
                count < _fieldCount ? _lines.Line.Length + 1 : _starts[_fieldCount] + 1,
                string.Create(CultureInfo.InvariantCulture, $"found {count} fields; the header has {_fieldCount}."));
        }

        return true;
    }

    /// <summary>A whole number within a range.</summary>
    public long Integer(int column, long minimum, long maximum)
    {
        if (long.TryParse(this[column], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value)
            && value >= minimum && value <= maximum)
        {
            return value;
        }

        throw Error(column, string.Create(CultureInfo.InvariantCulture, $"must be a whole number from {minimum} to {maximum}"));
    }

    /// <summary>A whole number, or null when the field is empty.</summary>
    public long? OptionalInteger(int column, long minimum, long maximum) =>
        this[column].IsEmpty ? null : Integer(column, minimum, maximum);

    /// <summary>A finite number.</summary>
    public double Number(int column)
    {
        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        if (double.TryParse(this[column], Style, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value))
        {
            return value;
        }

        throw Error(column, "must be a finite number with a decimal point, such as 0.5");
    }

    /// <summary>A finite number, or NaN when the field is empty.</summary>
    public double OptionalNumber(int column) => this[column].IsEmpty ? double.NaN : Number(column);

    /// <summary>Seconds as whole nanoseconds, without a detour through binary fractions.</summary>
    public long SecondsAsNs(int column)
    {
        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;
        if (decimal.TryParse(this[column], Style, CultureInfo.InvariantCulture, out decimal seconds)
            && seconds is >= 0 and <= 9_000_000_000)
        {
            return (long)decimal.Round(seconds * 1_000_000_000);
        }

        throw Error(column, "must be seconds from 0 on with a decimal point, such as 42.45");
    }

    /// <summary>An error about a field of the current row.</summary>
    public InputFileException Error(int column, string whatIsRight) => _lines.Error(
        _place[column] < 0 ? 0 : _starts[_place[column]] + 1,
        $"found {InputFiles.Quote(this[column])}; {_names[column]} {whatIsRight}.");

    /// <summary>An error about the file or row as a whole.</summary>
    public InputFileException Error(string message) => _lines.Error(0, message);

    public void Dispose() => _lines.Dispose();

    private ReadOnlySpan<char> Field(int place) =>
        _lines.Line[_starts[place]..(_starts[place + 1] - 1)];

    // Start of every field; a field ends one before the start of the next.
    private int Split()
    {
        ReadOnlySpan<char> line = _lines.Line;
        int count = 0;
        int start = 0;
        while (true)
        {
            _starts[count++] = start;
            int length = line[start..].IndexOf(',');
            start = length < 0 ? line.Length + 1 : start + length + 1;
            _starts[count] = start;
            if (length < 0)
            {
                return count;
            }

            if (count == MostColumns)
            {
                throw _lines.Error(start, $"more than {MostColumns} fields in a line.");
            }
        }
    }

    private int ReadHeader(int requiredCount)
    {
        string right = requiredCount > 0
            ? $"the header must be {string.Join(',', _names[..requiredCount])}"
            : $"the header must name columns such as {string.Join(',', _names)}";
        if (!_lines.Read())
        {
            throw new InputFileException(_lines.FileName, 1, 0, $"the file is empty; {right}.");
        }

        int count = Split();
        for (int place = 0; place < count; place++)
        {
            ReadOnlySpan<char> name = Field(place);
            int column = IndexOf(name);
            if (column < 0 && _isStrict)
            {
                throw _lines.Error(_starts[place] + 1, $"found column {InputFiles.Quote(name)}; {right}.");
            }

            if (column >= 0 && _place[column] >= 0)
            {
                throw _lines.Error(_starts[place] + 1, $"column {InputFiles.Quote(name)} stands here a second time; once is right.");
            }

            if (column >= 0)
            {
                _place[column] = place;
            }
        }

        for (int column = 0; column < requiredCount; column++)
        {
            if (_place[column] < 0)
            {
                throw _lines.Error(0, $"found {InputFiles.Quote(_lines.Line)} without column {_names[column]}; {right}.");
            }
        }

        return count;
    }

    private int IndexOf(ReadOnlySpan<char> name)
    {
        for (int i = 0; i < _names.Length; i++)
        {
            if (name.SequenceEqual(_names[i]))
            {
                return i;
            }
        }

        return -1;
    }
}
