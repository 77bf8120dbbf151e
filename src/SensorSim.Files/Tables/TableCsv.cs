// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Files.Tables;

/// <summary>Writes a table as comma-separated text: UTF-8 without byte order mark, line feeds, invariant numbers.</summary>
/// <remarks>Texts with a comma, a quotation mark or a line end stand in quotation marks, after RFC 4180. Where there is no value the field is empty.</remarks>
public static class TableCsv
{
    /// <summary>Writes the table.</summary>
    /// <param name="stream">Takes the text; left open.</param>
    /// <param name="table">The table.</param>
    public static void Write(Stream stream, ColumnTable table)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(table);
        using var writer = new StreamWriter(stream, new UTF8Encoding(false), 1 << 14, leaveOpen: true) { NewLine = "\n" };
        writer.WriteLine(string.Join(',', table.Columns.Select(c => Quoted(c.Name))));
        for (int row = 0; row < table.RowCount; row++)
        {
            for (int column = 0; column < table.Columns.Count; column++)
            {
                if (column > 0)
                {
                    writer.Write(',');
                }

                writer.Write(Field(table.Columns[column], row));
            }

            writer.WriteLine();
        }
    }

    private static string? Field(TableColumn column, int row) => column switch
    {
        WholeColumn whole => whole.At(row)?.ToString(CultureInfo.InvariantCulture),
        LongWholeColumn whole => whole.At(row)?.ToString("0", CultureInfo.InvariantCulture),
        RealColumn real => Finite(real, row)?.ToString("R", CultureInfo.InvariantCulture),
        TextColumn text => Quoted(text.At(row)),
        _ => throw new NotSupportedException($"A column of {column.GetType().Name} has no text."),
    };

    internal static double? Finite(RealColumn column, int row) => column.At(row) switch
    {
        double value when !double.IsFinite(value) => throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{column.Name} is {value} in row {row}; a file holds finite numbers only."), nameof(column)),
        double value => value,
        null => null,
    };

    private static string Quoted(string text) =>
        text.AsSpan().IndexOfAny(",\"\r\n") < 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
