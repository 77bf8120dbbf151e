// SPDX-License-Identifier: MIT
using Parquet;
using Parquet.Schema;

namespace SensorSim.Files.Tables;

/// <summary>Writes a table as an Apache Parquet file, the same bytes for the same table.</summary>
/// <remarks>
/// 64-bit integers, doubles, UTF-8 texts, and decimals of 28 digits; every number may be null. Units stand in the file's key-value metadata
/// as <c>unit.COLUMN</c>. Not compressed, because what a
/// compressor finds depends on the processor; 65,536 rows to a row group.
/// </remarks>
public static class TableParquet
{
    private const int RowsOfGroup = 1 << 16;
    private const int Digits = 28;

    /// <summary>Writes the table.</summary>
    /// <param name="stream">Takes the file; can seek; left open.</param>
    /// <param name="table">The table.</param>
    /// <param name="metadata">What else is to stand in the file's metadata, by key.</param>
    public static void Write(Stream stream, ColumnTable table, IReadOnlyDictionary<string, string> metadata)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(metadata);
        WriteAsync(stream, table, metadata).GetAwaiter().GetResult();
    }

    private static async Task WriteAsync(Stream stream, ColumnTable table, IReadOnlyDictionary<string, string> metadata)
    {
        DataField[] fields = [.. table.Columns.Select(Field)];
        var options = new ParquetOptions { CompressionMethod = CompressionMethod.None };
        ParquetWriter writer = await ParquetWriter.CreateAsync(new ParquetSchema([.. fields]), stream, options).ConfigureAwait(false);
        await using (writer.ConfigureAwait(false))
        {
            var all = new SortedDictionary<string, string>(StringComparer.Ordinal);
            foreach ((string key, string value) in metadata)
            {
                all.Add(key, value);
            }

            foreach (TableColumn column in table.Columns.Where(c => c.Unit.Length > 0))
            {
                all.Add($"unit.{column.Name}", column.Unit);
            }

            writer.CustomMetadata = all.ToDictionary(p => p.Key, p => p.Value, StringComparer.Ordinal);
            for (int first = 0; first < table.RowCount; first += RowsOfGroup)
            {
                using ParquetRowGroupWriter group = writer.CreateRowGroup();
                int count = Math.Min(RowsOfGroup, table.RowCount - first);
                for (int i = 0; i < fields.Length; i++)
                {
                    await WriteColumn(group, fields[i], table.Columns[i], first, count).ConfigureAwait(false);
                }
            }
        }
    }

    private static DataField Field(TableColumn column) => column switch
    {
        WholeColumn => new DataField(column.Name, typeof(long), isNullable: true),
        LongWholeColumn => new DecimalDataField(column.Name, Digits, 0, isNullable: true),
        RealColumn => new DataField(column.Name, typeof(double), isNullable: true),
        TextColumn => new DataField(column.Name, typeof(string), isNullable: false),
        _ => throw new NotSupportedException($"A column of {column.GetType().Name} has no place in the file."),
    };

    private static async Task WriteColumn(ParquetRowGroupWriter group, DataField field, TableColumn column, int first, int count)
    {
        switch (column)
        {
            case WholeColumn whole:
                await group.WriteAsync<long>(field, Values(whole.At, first, count)).ConfigureAwait(false);
                break;
            case LongWholeColumn whole:
                await group.WriteAsync<decimal>(field, Values(whole.At, first, count)).ConfigureAwait(false);
                break;
            case RealColumn real:
                await group.WriteAsync<double>(field, Values(row => TableCsv.Finite(real, row), first, count)).ConfigureAwait(false);
                break;
            case TextColumn text:
                await group.WriteAsync(field, Values(text.At, first, count)).ConfigureAwait(false);
                break;
            default:
                throw new NotSupportedException($"A column of {column.GetType().Name} has no place in the file.");
        }
    }

    private static T[] Values<T>(Func<int, T> at, int first, int count)
    {
        var values = new T[count];
        for (int i = 0; i < count; i++)
        {
            values[i] = at(first + i);
        }

        return values;
    }
}
