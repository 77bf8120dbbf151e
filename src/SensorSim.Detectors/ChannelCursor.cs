// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors;

/// <summary>Walks through the usable samples of one channel, from block to block, and notices gaps.</summary>
internal struct ChannelCursor
{
    private const ushort Unusable = (ushort)(SampleStatus.LeadOffPositive | SampleStatus.LeadOffNegative | SampleStatus.LeadOffThird
        | SampleStatus.Saturated | SampleStatus.OverRange);

    private long _expected;
    private int _run;
    private int _inRun;

    public ChannelCursor(int channel, long ticksPerSample)
    {
        Channel = channel;
        TicksPerSample = ticksPerSample;
        _expected = -1; // no sample yet: the first one begins a stretch
    }

    /// <summary>Channel number, or −1 when the stream has no such channel.</summary>
    public int Channel { get; }

    /// <summary>Ticks from one sample to the next.</summary>
    public long TicksPerSample { get; }

    /// <summary>Index of the sample that <see cref="TryNext"/> handed out first.</summary>
    public long Index { get; private set; }

    /// <summary>Tick of the sample whose arrival led to the event.</summary>
    public long EventTick { get; private set; }

    /// <summary>A new block begins.</summary>
    public void Begin()
    {
        _run = 0;
        _inRun = 0;
    }

    /// <summary>The next stretch of usable samples, to the end of its run at most.</summary>
    /// <param name="block">The block.</param>
    /// <param name="codes">Their codes.</param>
    /// <param name="afterGap">Whether the first one does not follow the last one taken.</param>
    /// <returns>Whether there is one.</returns>
    public bool TryNext(SampleBlock block, out ReadOnlySpan<int> codes, out bool afterGap)
    {
        codes = default;
        afterGap = false;
        if (Channel < 0)
        {
            return false;
        }

        ChannelBlock channel = block.Channels[Channel];
        ReadOnlySpan<SampleRun> runs = channel.Runs;
        while (_run < runs.Length)
        {
            SampleRun run = runs[_run];
            ReadOnlySpan<ushort> status = channel.Status.Slice(run.Offset + _inRun, run.Count - _inRun);
            int skipped = CountWhile(status, isUsable: false);
            _inRun += skipped;
            if (_inRun == run.Count)
            {
                _run++;
                _inRun = 0;
                continue;
            }

            int count = CountWhile(status[skipped..], isUsable: true);
            Index = run.FirstIndex + _inRun;
            codes = channel.Codes.Slice(run.Offset + _inRun, count);
            afterGap = Index != _expected;
            _expected = Index;
            return true;
        }

        return false;
    }

    /// <summary>Samples of the stretch have been taken.</summary>
    /// <param name="count">How many.</param>
    public void Advance(int count)
    {
        _inRun += count;
        _expected += count;
    }

    /// <summary>An event came with the last sample taken, or, when none of a new stretch has been taken, with its first.</summary>
    public void MarkEvent() => EventTick = (_expected > Index ? _expected - 1 : Index) * TicksPerSample;

    private static int CountWhile(ReadOnlySpan<ushort> status, bool isUsable)
    {
        // Most often every word is zero; that test runs many words at a time.
        int zeros = isUsable ? status.IndexOfAnyExcept((ushort)0) : 0;
        if (zeros < 0)
        {
            return status.Length;
        }

        int count = zeros;
        while (count < status.Length && ((status[count] & Unusable) == 0) == isUsable)
        {
            count++;
        }

        return count;
    }
}
