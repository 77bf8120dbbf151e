// SPDX-License-Identifier: MIT
using Parquet;
using Parquet.Schema;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Exports;

/// <summary>The Parquet file of one channel: rows gather in arrays of fixed length, and a full set becomes a row group.</summary>
/// <remarks>Not compressed, because what a compressor finds depends on the processor.</remarks>
internal sealed class ParquetChannel : IDisposable
{
    /// <summary>Rows of a full group.</summary>
    public const int RowsOfGroup = 1 << 17;

    private readonly Stream _stream;
    private readonly ChannelFormat _format;
    private readonly DataField _sample = new("sample", typeof(long), isNullable: false);
    private readonly DataField _code = new("code", typeof(int), isNullable: false);
    private readonly DataField _status = new("status", typeof(int), isNullable: false);
    private readonly DataField _value;
    private readonly ParquetWriter _writer;
    private readonly long[] _samples = new long[RowsOfGroup];
    private readonly int[] _codes = new int[RowsOfGroup];
    private readonly int[] _statusWords = new int[RowsOfGroup];
    private readonly double[] _values = new double[RowsOfGroup];
    private int _count;

    public ParquetChannel(Stream stream, ChannelFormat format)
    {
        _stream = stream;
        _format = format;
        _value = new DataField(ValueColumn(format), typeof(double), isNullable: false);
        _writer = ParquetWriter.CreateAsync(
            new ParquetSchema([_sample, _code, _status, _value]), stream, new ParquetOptions { CompressionMethod = CompressionMethod.None }).GetAwaiter().GetResult();
    }

    /// <summary>Name of the column with physical values, such as <c>value_mv</c>.</summary>
    public static string ValueColumn(ChannelFormat format) => "value_" + format.Unit.ToLowerInvariant();

    public void Append(long sample, int code, ushort status)
    {
        _samples[_count] = sample;
        _codes[_count] = code;
        _statusWords[_count] = status;
        _values[_count] = _format.Physical(code);
        if (++_count == RowsOfGroup)
        {
            WriteGroup();
        }
    }

    public void Complete(IEnumerable<(string Key, string Value)> metadata)
    {
        if (_count > 0)
        {
            WriteGroup();
        }

        _writer.CustomMetadata = metadata.OrderBy(m => m.Key, StringComparer.Ordinal).ToDictionary(m => m.Key, m => m.Value, StringComparer.Ordinal);
        _writer.DisposeAsync().AsTask().GetAwaiter().GetResult();
        _stream.Dispose();
    }

    // A file that is not completed is thrown away: its footer is not written.
    public void Dispose() => _stream.Dispose();

    private void WriteGroup()
    {
        WriteGroupAsync().GetAwaiter().GetResult();
        _count = 0;
    }

    private async Task WriteGroupAsync()
    {
        using ParquetRowGroupWriter group = _writer.CreateRowGroup();
        await group.WriteAsync<long>(_sample, _samples.AsMemory(0, _count)).ConfigureAwait(false);
        await group.WriteAsync<int>(_code, _codes.AsMemory(0, _count)).ConfigureAwait(false);
        await group.WriteAsync<int>(_status, _statusWords.AsMemory(0, _count)).ConfigureAwait(false);
        await group.WriteAsync<double>(_value, _values.AsMemory(0, _count)).ConfigureAwait(false);
    }
}
