// SPDX-License-Identifier: MIT
using System.Globalization;
using Spectre.Console;
using Spectre.Console.Rendering;

namespace SensorSim.Cli.Output;

/// <summary>Tables of plain text, the same on every terminal and in every file.</summary>
internal static class PlainTables
{
    // A table is as wide as it is: what is cut off is lost in a file, and a terminal breaks lines itself.
    private const int Width = 160;
    private const int BetweenColumns = 3;

    /// <summary>Prints a table with an empty line before it and one after it: it stands between lines of text.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="columns">As for <see cref="Print"/>.</param>
    /// <param name="rows">Rows.</param>
    public static void PrintApart(TextWriter writer, IReadOnlyList<string> columns, IEnumerable<string[]> rows)
    {
        writer.WriteLine();
        Print(writer, columns, rows);
        writer.WriteLine();
    }

    /// <summary>Prints a table and nothing else: its caller knows what stands around it.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="columns">Heads; one that ends in <c>&gt;</c> stands to the right.</param>
    /// <param name="rows">Rows.</param>
    public static void Print(TextWriter writer, IReadOnlyList<string> columns, IEnumerable<string[]> rows)
    {
        var table = new Table { Border = TableBorder.Simple };
        foreach (string head in columns)
        {
            var column = new TableColumn(new Text(head.TrimEnd('>'))) { NoWrap = true };
            table.AddColumn(head.EndsWith('>') ? column.RightAligned() : column);
        }

        int[] widths = [.. columns.Select(c => c.Length)];
        foreach (string[] row in rows)
        {
            table.AddRow(row.Select(c => (IRenderable)new Text(c)));
            for (int i = 0; i < widths.Length; i++)
            {
                widths[i] = Math.Max(widths[i], row[i].Length);
            }
        }

        // The package puts an empty line before and after the table, and fills every line up to its width.
        IEnumerable<string> lines = Drawn(table, Math.Max(Width, widths.Sum() + (BetweenColumns * (widths.Length + 1))));
        foreach (string line in lines.Where(l => !string.IsNullOrWhiteSpace(l)))
        {
            writer.WriteLine(line.TrimEnd());
        }
    }

    private static string[] Drawn(Table table, int width)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture) { NewLine = "\n" };
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = AnsiSupport.No,
            ColorSystem = ColorSystemSupport.NoColors,
            Interactive = InteractionSupport.No,
            Out = new AnsiConsoleOutput(text),
        });
        console.Profile.Width = width;
        console.Profile.Capabilities.Unicode = false;
        console.Write(table);
        string[] lines = text.ToString().Split('\n');
        return lines[^1].Length == 0 ? lines[..^1] : lines;
    }

    /// <summary>A number, or a dash where there is none; a small negative one reads 0.00, not -0.00.</summary>
    public static string Fixed(double? value, string format)
    {
        string text = value?.ToString(format, CultureInfo.InvariantCulture) ?? "-";
        bool isZero = value is not null && text.AsSpan().IndexOfAnyInRange('1', '9') < 0 && double.IsFinite(value.Value);
        return isZero ? text.TrimStart('-') : text;
    }
}
