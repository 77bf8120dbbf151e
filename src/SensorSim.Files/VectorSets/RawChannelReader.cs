// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Files.Recordings;
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>Reads one raw channel: codes from one file, where they belong from the other.</summary>
internal sealed class RawChannelReader : IChannelReader
{
    private static readonly string[] s_columns = SetNames.RunsHeader.Split(',');

    private readonly string _codesPath;
    private readonly FileStream _codes;
    private readonly CsvTable _runs;
    private readonly ChannelFormat _format;
    private readonly long _endIndex;
    private readonly byte[] _bytes = new byte[4096];
    private long _read;
    private long _next;
    private long _left;
    private long _after;
    private ushort _status;

    public RawChannelReader(string folder, ChannelFormat format, long endIndex)
    {
        _format = format;
        _endIndex = endIndex;
        _codesPath = Path.Combine(folder, SetNames.Codes(format.Name));
        string runs = Path.Combine(folder, SetNames.Runs(format.Name));
        _codes = InputFiles.OpenRead(_codesPath);
        try
        {
            _runs = new CsvTable(InputFiles.OpenRead(runs), runs, s_columns, [], isStrict: true);
            NextRun();
        }
        catch
        {
            _runs?.Dispose();
            _codes.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public void Read(ChannelBlock block, long untilIndex)
    {
        while (_left > 0 && _next < untilIndex)
        {
            int count = (int)Math.Min(Math.Min(_left, untilIndex - _next), _bytes.Length / sizeof(int));
            block.Append(_next, count, out Span<int> codes, out Span<ushort> status);
            ReadCodes(codes);
            status.Fill(_status);
            _next += count;
            _left -= count;
            if (_left == 0)
            {
                NextRun();
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _runs.Dispose();
        _codes.Dispose();
    }

    private void ReadCodes(Span<int> codes)
    {
        int bytes = codes.Length * sizeof(int);
        int got = _codes.ReadAtLeast(_bytes.AsSpan(0, bytes), bytes, throwOnEndOfStream: false);
        if (got < bytes)
        {
            throw new InputFileException(_codesPath, 0, 0, FormattableString.Invariant(
                $"ends at byte {(_read * sizeof(int)) + got}, before all samples that {SetNames.Runs(_format.Name)} lists; is the file cut off?"));
        }

        for (int i = 0; i < codes.Length; i++)
        {
            int code = BinaryPrimitives.ReadInt32LittleEndian(_bytes.AsSpan(i * sizeof(int)));
            if (code < _format.MinimumCode || code > _format.MaximumCode)
            {
                throw new InputFileException(_codesPath, 0, 0, FormattableString.Invariant(
                    $"byte {(_read + i) * sizeof(int)}: code {code} lies outside of {_format.MinimumCode} to {_format.MaximumCode}, the {_format.Bits} bits of the channel."));
            }

            codes[i] = code;
        }

        _read += codes.Length;
    }

    private void NextRun()
    {
        if (!_runs.ReadRow())
        {
            if (_codes.Length != _read * sizeof(int))
            {
                throw new InputFileException(_codesPath, 0, 0, FormattableString.Invariant(
                    $"has {_codes.Length} bytes; {SetNames.Runs(_format.Name)} lists {_read} samples of {sizeof(int)}."));
            }

            return;
        }

        long first = _runs.Integer(0, 0, long.MaxValue / 8);
        if (first < _after)
        {
            throw _runs.Error(0, "must lie after every sample of the row before");
        }

        _next = first;
        _left = _runs.Integer(1, 1, long.MaxValue / 8);
        _after = first + _left;
        if (_after > _endIndex)
        {
            throw _runs.Error(1, $"reaches beyond the end tick of {SetNames.StimulusChannels}");
        }

        _status = (ushort)_runs.Integer(2, 0, ushort.MaxValue);
    }
}
