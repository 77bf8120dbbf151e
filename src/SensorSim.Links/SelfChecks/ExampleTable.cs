// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Links.SelfChecks;

/// <summary>A small table of codec examples: a head and rows of as many fields, parted by commas, without quotes.</summary>
/// <remarks>The files are of the project's own set; a field holds no comma.</remarks>
internal sealed class ExampleTable
{
    private const long MostBytes = 1 << 20;

    private ExampleTable(string file, IReadOnlyList<string[]> rows)
    {
        File = file;
        Rows = rows;
    }

    public string File { get; }

    public IReadOnlyList<string[]> Rows { get; }

    /// <summary>Reads a file.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="head">The head that it must have.</param>
    /// <exception cref="InvalidDataException">The file is not such a table.</exception>
    public static ExampleTable Read(string path, string head)
    {
        if (new FileInfo(path).Length > MostBytes)
        {
            throw new InvalidDataException($"{path}: is larger than {MostBytes} bytes; a table of examples has some kilobytes");
        }

        string[] lines = System.IO.File.ReadAllLines(path);
        if (lines.Length < 2 || lines[0] != head)
        {
            throw new InvalidDataException($"{path}, line 1: must be {head}, with rows below");
        }

        int fields = head.Split(',').Length;
        var rows = new List<string[]>();
        for (int i = 1; i < lines.Length; i++)
        {
            string[] row = lines[i].Split(',');
            if (row.Length != fields)
            {
                throw new InvalidDataException($"{path}, line {i + 1}: has {row.Length} fields; there must be {fields}: {head}");
            }

            rows.Add(row);
        }

        return new ExampleTable(path, rows);
    }

    /// <summary>Bytes as pairs of hexadecimal digits, parted by blanks; none for an empty field.</summary>
    public byte[] Bytes(int row, int field)
    {
        string text = Rows[row][field].Replace(" ", "", StringComparison.Ordinal);
        try
        {
            return Convert.FromHexString(text);
        }
        catch (FormatException e)
        {
            throw Wrong(row, field, "pairs of hexadecimal digits", e);
        }
    }

    /// <summary>A whole number.</summary>
    public long Whole(int row, int field) =>
        long.TryParse(Rows[row][field], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value) ? value : throw Wrong(row, field, "a whole number");

    /// <summary>A decimal number, exactly.</summary>
    public decimal Exact(int row, int field) =>
        decimal.TryParse(Rows[row][field], NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal value)
            ? value
            : throw Wrong(row, field, "a number");

    private InvalidDataException Wrong(int row, int field, string right, Exception? inner = null) =>
        new($"{File}, line {row + 2}: {Rows[row][field]} in field {field + 1} must be {right}", inner);
}
