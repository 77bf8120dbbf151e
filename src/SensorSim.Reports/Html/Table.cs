// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Reports.Html;

/// <summary>One column of a table.</summary>
/// <param name="Name">Name in the file: snake_case, with the unit.</param>
/// <param name="Heading">Heading on the page.</param>
/// <param name="IsNumber">Whether it holds numbers: set to the right.</param>
internal readonly record struct Column(string Name, string Heading, bool IsNumber = false);

/// <summary>One cell of a table.</summary>
/// <param name="Page">What the page shows.</param>
/// <param name="File">What the file holds.</param>
internal readonly record struct Cell(string Page, string File)
{
    internal Cell(string text)
        : this(text, text)
    {
    }
}

/// <summary>A table, for the page and for a file of its own.</summary>
internal sealed class Table(string name, string caption, IReadOnlyList<Column> columns)
{
    /// <summary>What a page shows where there is nothing.</summary>
    internal const string Nothing = "–";

    private readonly List<IReadOnlyList<Cell>> _rows = [];

    /// <summary>Name of its file, without ending.</summary>
    internal string Name => name;

    internal string Caption => caption;

    internal IReadOnlyList<Column> Columns => columns;

    internal IReadOnlyList<IReadOnlyList<Cell>> Rows => _rows;

    /// <summary>Whether the page shows a column: not where every cell is empty.</summary>
    internal bool IsShown(int column) => _rows.Count == 0 || _rows.Exists(row => row[column].Page is not ("" or Nothing));

    internal void Add(IReadOnlyList<Cell> row)
    {
        if (row.Count != columns.Count)
        {
            throw new ArgumentException($"Table {name}: {row.Count} cells for {columns.Count} columns.", nameof(row));
        }

        _rows.Add(row);
    }

    /// <summary>The file: comma-separated values after RFC 4180, but with line feeds.</summary>
    internal string Csv()
    {
        var text = new StringBuilder();
        Line(text, columns.Select(c => c.Name));
        foreach (IReadOnlyList<Cell> row in _rows)
        {
            Line(text, row.Select(c => c.File));
        }

        return text.ToString();
    }

    private static void Line(StringBuilder text, IEnumerable<string> fields) => text.AppendJoin(',', fields.Select(Quoted)).Append('\n');

    private static string Quoted(string field) => field.AsSpan().ContainsAny(",\"\r\n")
        ? "\"" + field.Replace("\"", "\"\"", StringComparison.Ordinal) + "\""
        : field;
}
