// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>One channel of a file that is read: hands out the samples of the loaded record, without those that were never delivered.</summary>
internal sealed class EdfReaderTrack
{
    private readonly EdfFileReader _file;
    private readonly int _signal;
    private readonly ChannelFormat _format;
    private readonly int _offset;
    private readonly EdfChange[] _gaps;
    private readonly EdfChange[] _changes;
    private readonly int[] _scratch;
    private int _gapCount;
    private int _changeCount;
    private int _gap;
    private int _change;
    private long _begin;
    private long _next;
    private ushort _status;

    /// <summary>Makes a track.</summary>
    /// <param name="file">The file.</param>
    /// <param name="mapped">The signal and its channel.</param>
    /// <param name="isOwn">Whether the file is one of ours, with gaps and status in its annotations.</param>
    public EdfReaderTrack(EdfFileReader file, EdfMapped mapped, bool isOwn)
    {
        _file = file;
        _signal = mapped.Signal;
        _format = mapped.Channel;
        _offset = isOwn ? EdfScale.Offset(mapped.Channel) : 0;
        SamplesPerRecord = file.Header.Signals[_signal].SamplesPerRecord;
        _gaps = new EdfChange[isOwn ? SamplesPerRecord : 0];
        _changes = new EdfChange[isOwn ? SamplesPerRecord : 0];
        _scratch = new int[file.RecordCount == 0 ? 0 : SamplesPerRecord];
    }

    public ChannelName Name => _format.Name;

    public int RateHz => _format.RateHz;

    public int SamplesPerRecord { get; }

    /// <summary>Number of the channel in the stream.</summary>
    public int Channel { get; set; }

    /// <summary>Begins a record that has been loaded.</summary>
    /// <param name="firstSample">Index of its first sample.</param>
    public void BeginRecord(long firstSample)
    {
        _begin = firstSample;
        _next = firstSample;
        _gapCount = _changeCount = _gap = _change = 0;
        _file.Samples(_signal, 0, _scratch);
    }

    /// <summary>Takes a gap or a change of status that an annotation of the record tells.</summary>
    /// <returns>Whether it can be.</returns>
    public bool TryTake(bool isGap, in EdfChange change)
    {
        EdfChange[] list = isGap ? _gaps : _changes;
        ref int count = ref isGap ? ref _gapCount : ref _changeCount;
        long from = count == 0 ? _begin : isGap ? list[count - 1].Sample + list[count - 1].Value : list[count - 1].Sample + 1;
        long end = _begin + SamplesPerRecord;
        bool isRight = isGap ? change.Value >= 1 && change.Value <= end - change.Sample : change.Value <= ushort.MaxValue;
        if (count == list.Length || change.Sample < from || change.Sample >= end || !isRight)
        {
            return false;
        }

        list[count++] = change;
        return true;
    }

    /// <summary>Appends the samples of the record before an index.</summary>
    public void Read(ChannelBlock block, long untilIndex)
    {
        long end = Math.Min(untilIndex, _begin + SamplesPerRecord);
        while (_next < end)
        {
            if (_gap < _gapCount && _gaps[_gap].Sample <= _next)
            {
                // Of a gap that reaches over the end of this block, the rest is skipped in the next.
                _next = Math.Min(end, _gaps[_gap].Sample + _gaps[_gap].Value);
                _gap += _next == _gaps[_gap].Sample + _gaps[_gap].Value ? 1 : 0;
                continue;
            }

            long until = _gap < _gapCount ? Math.Min(end, _gaps[_gap].Sample) : end;
            Append(block, (int)(until - _next));
        }
    }

    private void Append(ChannelBlock block, int count)
    {
        block.Append(_next, count, out Span<int> codes, out Span<ushort> status);
        ReadOnlySpan<int> from = _scratch.AsSpan((int)(_next - _begin), count);
        for (int i = 0; i < count; i++)
        {
            int code = from[i] + _offset;
            if (code < _format.MinimumCode || code > _format.MaximumCode)
            {
                throw _file.Error(_file.Record, FormattableString.Invariant(
                    $"sample {_next + i} of {_format.Name.Text()} is code {code}; its {_format.Bits} bits hold {_format.MinimumCode} to {_format.MaximumCode}"));
            }

            while (_change < _changeCount && _changes[_change].Sample <= _next + i)
            {
                _status = (ushort)_changes[_change++].Value;
            }

            codes[i] = code;
            status[i] = _status;
        }

        _next += count;
    }
}
