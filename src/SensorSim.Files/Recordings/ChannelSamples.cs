// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>Reads <c>&lt;channel&gt;.csv</c> of a recording folder, always one row ahead.</summary>
internal sealed class ChannelSamples : IChannelReader
{
    private static readonly string[] s_columns = RecordingNames.SamplesHeader.Split(',');
    private readonly CsvTable _table;
    private readonly ChannelFormat _format;
    private readonly long _endIndex;
    private long _index = -1;
    private bool _hasRow;
    private int _code;
    private ushort _status;

    /// <summary>Opens the file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="format">Format of the channel.</param>
    /// <param name="endIndex">First sample index after the end of the recording.</param>
    public ChannelSamples(string path, ChannelFormat format, long endIndex)
    {
        _format = format;
        _endIndex = endIndex;
        _table = new CsvTable(InputFiles.OpenRead(path), path, s_columns, [], isStrict: true);
        try
        {
            Next();
        }
        catch
        {
            _table.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public void Read(ChannelBlock block, long untilIndex)
    {
        while (_hasRow && _index < untilIndex)
        {
            block.Append(_index, 1, out Span<int> codes, out Span<ushort> status);
            codes[0] = _code;
            status[0] = _status;
            Next();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _table.Dispose();

    private void Next()
    {
        _hasRow = _table.ReadRow();
        if (!_hasRow)
        {
            return;
        }

        long index = _table.Integer(0, 0, long.MaxValue / 4);
        if (index <= _index)
        {
            throw _table.Error(0, "must be larger than in the row before");
        }

        if (index >= _endIndex)
        {
            throw _table.Error(0, $"lies after the end tick of {RecordingNames.Channels}");
        }

        _index = index;
        _code = (int)_table.Integer(1, _format.MinimumCode, _format.MaximumCode);
        _status = (ushort)_table.Integer(2, 0, ushort.MaxValue);
    }
}
