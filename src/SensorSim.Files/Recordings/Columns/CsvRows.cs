// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Text;

namespace SensorSim.Files.Recordings.Columns;

/// <summary>Rows of anybody's table: comma, semicolon or tab between fields, quotation marks around them allowed, no object per row.</summary>
/// <remarks>Lines before the header that begin with # are comments. Empty lines are harmless at the end and a mistake anywhere else.</remarks>
internal sealed class CsvRows : IDisposable
{
    private const int MostColumns = 256;
    private readonly LineReader _lines;
    private readonly char _separator;
    private readonly int[] _starts = new int[MostColumns + 1];
    private long _emptyLine;

    /// <summary>Opens a table and reads its header.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or no header.</exception>
    public CsvRows(string path)
    {
        _lines = new LineReader(InputFiles.OpenRead(path), path);
        try
        {
            do
            {
                if (!_lines.Read())
                {
                    throw new InputFileException(path, 1, 0, "the file is empty; it must have a header line that names its columns, and rows of numbers.");
                }
            }
            while (_lines.Line.StartsWith("#"));

            _separator = _lines.Line.Contains('\t') ? '\t' : _lines.Line.Contains(';') ? ';' : ',';
            int count = Split();
            Header = [.. Enumerable.Range(0, count).Select(i => this[i].ToString())];
            if (Header.All(name => double.TryParse(name, NumberStyles.Float, CultureInfo.InvariantCulture, out _)))
            {
                throw _lines.Error(1, $"found {InputFiles.Quote(_lines.Line)}; the first line must be a header that names the columns, such as time_s,ecg_mv.");
            }
        }
        catch
        {
            _lines.Dispose();
            throw;
        }
    }

    /// <summary>Names of the columns, as they stand there, without quotation marks and blanks around them.</summary>
    public IReadOnlyList<string> Header { get; }

    /// <summary>A field of the current row, without quotation marks and blanks around it.</summary>
    public ReadOnlySpan<char> this[int column]
    {
        get
        {
            ReadOnlySpan<char> field = _lines.Line[_starts[column]..(_starts[column + 1] - 1)].Trim(' ');
            return field.Length >= 2 && field[0] == '"' && field[^1] == '"' ? field[1..^1].Trim(' ') : field;
        }
    }

    public bool Read()
    {
        while (_lines.Read())
        {
            if (_lines.Line.IsEmpty)
            {
                _emptyLine = _emptyLine == 0 ? _lines.LineNumber : _emptyLine;
                continue;
            }

            if (_emptyLine != 0)
            {
                throw new InputFileException(_lines.FileName, _emptyLine, 1, "the line is empty; every line after the header must hold a row.");
            }

            int count = Split();
            return count == Header.Count ? true : throw _lines.Error(
                0, string.Create(CultureInfo.InvariantCulture, $"found {count} fields; the header has {Header.Count}."));
        }

        return false;
    }

    /// <summary>Whether a field says that there is no value: it is empty or <c>nan</c>.</summary>
    public bool IsMissing(int column) => this[column].IsEmpty || this[column].Equals("nan", StringComparison.OrdinalIgnoreCase);

    /// <summary>A finite number.</summary>
    public double Number(int column)
    {
        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        return double.TryParse(this[column], Style, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value)
            ? value
            : throw Error(column, "must be a finite number with a decimal point, such as 0.5; an empty field is a sample that is missing");
    }

    /// <summary>A whole number from 0 on.</summary>
    public long Index(int column) =>
        long.TryParse(this[column], NumberStyles.None, CultureInfo.InvariantCulture, out long value) && value < long.MaxValue / 4
            ? value
            : throw Error(column, "must be a whole number from 0 on");

    /// <summary>An error about a field of the current row.</summary>
    public InputFileException Error(int column, string whatIsRight) =>
        _lines.Error(_starts[column] + 1, $"found {InputFiles.Quote(this[column])}; {Header[column]} {whatIsRight}.");

    /// <summary>An error about the file as a whole.</summary>
    public InputFileException Error(string message) => new(_lines.FileName, 0, 0, message);

    public void Dispose() => _lines.Dispose();

    private int Split()
    {
        ReadOnlySpan<char> line = _lines.Line;
        int count = 0;
        int start = 0;
        while (true)
        {
            _starts[count++] = start;
            int length = line[start..].IndexOf(_separator);
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
}
