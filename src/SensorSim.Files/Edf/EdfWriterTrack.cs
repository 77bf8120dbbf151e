// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>One channel of a file that is written: the samples of the current second, and what changed in it.</summary>
internal sealed class EdfWriterTrack
{
    private readonly int[] _codes;
    private readonly EdfChange[] _gaps;
    private readonly EdfChange[] _changes;
    private readonly int _offset;
    private int _gapCount;
    private int _changeCount;
    private long _recordBegin;
    private long _next;
    private int _held;
    private ushort _status;
    private int _run;
    private int _taken;

    public EdfWriterTrack(StreamFormat format, int channel)
    {
        ChannelFormat c = format.Channels[channel];
        Channel = channel;
        Name = c.Name;
        _codes = new int[c.RateHz];
        _gaps = new EdfChange[(c.RateHz / 2) + 1];
        _changes = new EdfChange[c.RateHz];
        _offset = EdfScale.Offset(c);
        _held = Math.Clamp(c.ZeroCode, c.MinimumCode, c.MaximumCode) - _offset;
    }

    /// <summary>Number of the channel in the stream.</summary>
    public int Channel { get; }

    public ChannelName Name { get; }

    /// <summary>First sample after the current second.</summary>
    public long RecordEnd => _recordBegin + _codes.Length;

    /// <summary>The samples of the second as they stand in the file.</summary>
    public ReadOnlySpan<int> Codes => _codes;

    /// <summary>Samples that the sensor never delivered: the first, and how many.</summary>
    public ReadOnlySpan<EdfChange> Gaps => _gaps.AsSpan(0, _gapCount);

    /// <summary>Changes of the status word: the first sample that has it, and the word.</summary>
    public ReadOnlySpan<EdfChange> Changes => _changes.AsSpan(0, _changeCount);

    public void BeginBlock()
    {
        _run = 0;
        _taken = 0;
    }

    /// <summary>Takes the samples of the block that lie in the current second.</summary>
    public void Take(ChannelBlock block)
    {
        ReadOnlySpan<SampleRun> runs = block.Runs;
        while (_run < runs.Length && runs[_run].FirstIndex + _taken < RecordEnd)
        {
            SampleRun run = runs[_run];
            FillGap(run.FirstIndex + _taken);
            int count = (int)Math.Min(run.Count - _taken, RecordEnd - _next);
            Copy(block.Codes.Slice(run.Offset + _taken, count), block.Status.Slice(run.Offset + _taken, count));
            _taken += count;
            if (_taken == run.Count)
            {
                _run++;
                _taken = 0;
            }
        }
    }

    /// <summary>Fills up to a sample with the code before: nothing was delivered.</summary>
    public void FillGap(long until)
    {
        if (until <= _next)
        {
            return;
        }

        _gaps[_gapCount++] = new EdfChange(_next, (int)(until - _next));
        Hold(until);
    }

    /// <summary>Fills the second with the code before: the recording has ended.</summary>
    public void FillRest() => Hold(RecordEnd);

    public void NextRecord()
    {
        _recordBegin = _next;
        _gapCount = 0;
        _changeCount = 0;
    }

    private void Hold(long until)
    {
        _codes.AsSpan((int)(_next - _recordBegin), (int)(until - _next)).Fill(_held);
        _next = until;
    }

    private void Copy(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status)
    {
        Span<int> to = _codes.AsSpan((int)(_next - _recordBegin), codes.Length);
        for (int i = 0; i < codes.Length; i++)
        {
            to[i] = codes[i] - _offset;
            if (status[i] != _status)
            {
                _status = status[i];
                _changes[_changeCount++] = new EdfChange(_next + i, _status);
            }
        }

        _held = to[^1];
        _next += codes.Length;
    }
}

/// <summary>A place in a channel and a number that belongs to it.</summary>
/// <param name="Sample">Sample index.</param>
/// <param name="Value">Samples of a gap, or the status word.</param>
internal readonly record struct EdfChange(long Sample, int Value);
