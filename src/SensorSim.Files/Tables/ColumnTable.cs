// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Tables;

/// <summary>A table that is written column by column or row by row; it holds no values itself.</summary>
public sealed class ColumnTable
{
    /// <summary>Creates a table.</summary>
    /// <param name="rowCount">Rows.</param>
    /// <param name="columns">Columns, at least one, with different names.</param>
    /// <exception cref="ArgumentException">There is no column, or two have one name.</exception>
    public ColumnTable(int rowCount, IReadOnlyList<TableColumn> columns)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(rowCount);
        ArgumentNullException.ThrowIfNull(columns);
        if (columns.Count == 0 || columns.Select(c => c.Name).Distinct(StringComparer.Ordinal).Count() < columns.Count)
        {
            throw new ArgumentException("A table needs columns, each with a name of its own.", nameof(columns));
        }

        RowCount = rowCount;
        Columns = columns;
    }

    /// <summary>Rows.</summary>
    public int RowCount { get; }

    /// <summary>Columns in their order.</summary>
    public IReadOnlyList<TableColumn> Columns { get; }
}
