// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Rows;

/// <summary>Reads rows one after another, in constant memory.</summary>
/// <typeparam name="T">What a row means.</typeparam>
public interface IRowReader<T> : IDisposable
    where T : struct
{
    /// <summary>Reads the next row.</summary>
    /// <param name="row">Receives it.</param>
    /// <returns>Whether there was one.</returns>
    /// <exception cref="InputFileException">The row is not what it should be.</exception>
    bool TryRead(out T row);
}

/// <summary>What can be done with every reader of rows.</summary>
public static class RowReaders
{
    /// <summary>The remaining rows, read as they are asked for.</summary>
    /// <typeparam name="T">What a row means.</typeparam>
    /// <param name="reader">The reader.</param>
    public static IEnumerable<T> ReadAll<T>(this IRowReader<T> reader)
        where T : struct
    {
        ArgumentNullException.ThrowIfNull(reader);
        while (reader.TryRead(out T row))
        {
            yield return row;
        }
    }
}
