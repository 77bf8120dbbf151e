// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;

namespace SensorSim.Files.Rows;

/// <summary>Reads the rows of a table one after another, in constant memory.</summary>
/// <typeparam name="T">What a row means.</typeparam>
public abstract class CsvRowReader<T> : IRowReader<T>
    where T : struct
{
    private protected CsvRowReader(Stream stream, string fileName, string[] required, string[] optional, bool isStrict) =>
        Table = new CsvTable(stream, fileName, required, optional, isStrict);

    private protected CsvTable Table { get; }

    /// <inheritdoc/>
    public bool TryRead(out T row)
    {
        if (Table.ReadRow())
        {
            row = Parse();
            return true;
        }

        row = default;
        return false;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Table.Dispose();
        GC.SuppressFinalize(this);
    }

    private protected abstract T Parse();
}
