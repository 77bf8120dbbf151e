// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>The samples of a C header as a stream, for whoever wants to know what a detector answers to them.</summary>
public sealed class HeaderStream : ISampleStream
{
    private readonly VectorHeader _header;
    private readonly ushort[][] _status;
    private readonly int[] _run;
    private readonly int[] _inRun;
    private readonly int[] _place;

    /// <summary>Creates the stream.</summary>
    /// <param name="header">The header.</param>
    public HeaderStream(VectorHeader header)
    {
        ArgumentNullException.ThrowIfNull(header);
        _header = header;
        _run = new int[header.Channels.Count];
        _inRun = new int[header.Channels.Count];
        _place = new int[header.Channels.Count];
        _status = [.. header.Channels.Select(c => new ushort[c.Codes.Count])];
        for (int c = 0; c < _status.Length; c++)
        {
            foreach ((int first, int count, ushort word) in header.Channels[c].Statuses)
            {
                _status[c].AsSpan(first, count).Fill(word);
            }
        }
    }

    /// <inheritdoc/>
    public StreamFormat Format => _header.Format;

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <inheritdoc/>
    public long EndTick => _header.EndTick;

    /// <inheritdoc/>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, EndTick);
        block.Begin(PositionTick, untilTick);
        for (int c = 0; c < _run.Length; c++)
        {
            Read(block.Channels[c], c, Format.FirstSampleAtOrAfter(c, untilTick));
        }

        PositionTick = untilTick;
    }

    private void Read(ChannelBlock block, int c, long untilIndex)
    {
        VectorHeaderChannel channel = _header.Channels[c];
        while (_run[c] < channel.Runs.Count)
        {
            (long first, int length) = channel.Runs[_run[c]];
            long index = first + _inRun[c];
            int count = (int)Math.Min(length - _inRun[c], untilIndex - index);
            if (count <= 0)
            {
                return;
            }

            block.Append(index, count, out Span<int> codes, out Span<ushort> status);
            for (int i = 0; i < count; i++)
            {
                codes[i] = channel.Codes[_place[c] + i];
                status[i] = _status[c][_place[c] + i];
            }

            _place[c] += count;
            _inRun[c] += count;
            if (_inRun[c] == length)
            {
                _run[c]++;
                _inRun[c] = 0;
            }
        }
    }
}
