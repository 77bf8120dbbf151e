// SPDX-License-Identifier: MIT
using Parquet;
using Parquet.Schema;

namespace SensorSim.Files.Tables;

/// <summary>Reads a table that <see cref="TableParquet"/> wrote, value for value.</summary>
public static class TableParquetReader
{
    private const string UnitPrefix = "unit.";

    /// <summary>Reads what stands beside the table.</summary>
    /// <param name="stream">The file; can seek; left open.</param>
    /// <param name="file">Name of the file as the user gave it, for messages.</param>
    /// <returns>The metadata of the file without the units.</returns>
    /// <exception cref="InputFileException">It is no such file.</exception>
    public static IReadOnlyDictionary<string, string> ReadMetadata(Stream stream, string file) => Readable(stream, file, ReadMetadataAsync);

    /// <summary>Reads the whole table.</summary>
    /// <param name="stream">The file; can seek; left open.</param>
    /// <param name="file">Name of the file as the user gave it, for messages.</param>
    /// <returns>The table, and the metadata of the file without the units.</returns>
    /// <exception cref="InputFileException">It is no such file, or has a column of a type that such a table does not have.</exception>
    public static (ColumnTable Table, IReadOnlyDictionary<string, string> Metadata) Read(Stream stream, string file)
    {
        return Readable(stream, file, s => ReadAsync(s, file));
    }

    private static T Readable<T>(Stream stream, string file, Func<Stream, Task<T>> read)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentException.ThrowIfNullOrEmpty(file);
        try
        {
            return read(stream).GetAwaiter().GetResult();
        }
        catch (Exception e) when (e is not InputFileException and not OutOfMemoryException)
        {
            // What a damaged file makes the reader throw is not stated anywhere: a cast, an index, the end of the stream.
            throw new InputFileException(file, 0, 0, "this is no complete Parquet file; sweep the study into a new folder.", e);
        }
    }

    private static async Task<IReadOnlyDictionary<string, string>> ReadMetadataAsync(Stream stream)
    {
        ParquetReader reader = await ParquetReader.CreateAsync(stream, null, leaveStreamOpen: true).ConfigureAwait(false);
        await using (reader.ConfigureAwait(false))
        {
            return WithoutUnits(reader.CustomMetadata);
        }
    }

    private static Dictionary<string, string> WithoutUnits(IReadOnlyDictionary<string, string> all) =>
        all.Where(p => !p.Key.StartsWith(UnitPrefix, StringComparison.Ordinal)).ToDictionary(p => p.Key, p => p.Value, StringComparer.Ordinal);

    private static async Task<(ColumnTable Table, IReadOnlyDictionary<string, string> Metadata)> ReadAsync(Stream stream, string file)
    {
        ParquetReader reader = await ParquetReader.CreateAsync(stream, null, leaveStreamOpen: true).ConfigureAwait(false);
        await using (reader.ConfigureAwait(false))
        {
            IReadOnlyDictionary<string, string> all = reader.CustomMetadata;
            var groups = new List<(ParquetRowGroupReader Reader, int Count)>();
            try
            {
                for (int g = 0; g < reader.RowGroupCount; g++)
                {
                    ParquetRowGroupReader group = reader.OpenRowGroupReader(g);
                    groups.Add((group, checked((int)group.RowCount)));
                }

                var columns = new List<TableColumn>();
                foreach (DataField field in reader.Schema.GetDataFields())
                {
                    columns.Add(await ReadColumn(groups, field, all.GetValueOrDefault(UnitPrefix + field.Name, ""), file).ConfigureAwait(false));
                }

                return (new ColumnTable(groups.Sum(g => g.Count), columns), WithoutUnits(all));
            }
            finally
            {
                groups.ForEach(g => g.Reader.Dispose());
            }
        }
    }

    private static async Task<TableColumn> ReadColumn(IReadOnlyList<(ParquetRowGroupReader Reader, int Count)> groups, DataField field, string unit, string file)
    {
        if (field.ClrType == typeof(long))
        {
            long?[] values = await Read(groups, count => new long?[count], (g, v) => g.ReadAsync<long>(field, v)).ConfigureAwait(false);
            return new WholeColumn(field.Name, unit, i => values[i]);
        }

        if (field.ClrType == typeof(decimal))
        {
            decimal?[] values = await Read(groups, count => new decimal?[count], (g, v) => g.ReadAsync<decimal>(field, v)).ConfigureAwait(false);
            return new LongWholeColumn(field.Name, unit, i => values[i]);
        }

        if (field.ClrType == typeof(double))
        {
            double?[] values = await Read(groups, count => new double?[count], (g, v) => g.ReadAsync<double>(field, v)).ConfigureAwait(false);
            return new RealColumn(field.Name, unit, i => values[i]);
        }

        if (field.ClrType == typeof(ReadOnlyMemory<char>) || field.ClrType == typeof(string))
        {
            string[] values = await Read(groups, count => new string[count], (g, v) => g.ReadAsync(field, v)).ConfigureAwait(false);
            return new TextColumn(field.Name, i => values[i]);
        }

        throw new InputFileException(file, 0, 0, $"column {field.Name} holds {field.ClrType.Name}; a table of runs holds whole numbers, decimals, reals and texts.");
    }

    private static async Task<T[]> Read<T>(IReadOnlyList<(ParquetRowGroupReader Reader, int Count)> groups, Func<int, T[]> make, Func<ParquetRowGroupReader, T[], ValueTask> read)
    {
        T[] all = make(groups.Sum(g => g.Count));
        int at = 0;
        foreach ((ParquetRowGroupReader reader, int count) in groups)
        {
            T[] part = make(count);
            await read(reader, part).ConfigureAwait(false);
            part.CopyTo(all, at);
            at += count;
        }

        return all;
    }
}
