// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Cuts blocks of samples into payloads of <c>samples</c> frames. Allocates nothing per block.</summary>
/// <remarks>
/// A frame ends at the end of a tenth of a second of the stream, at the end of the block, where a channel goes on after a gap, and, where it would
/// grow too long, at half of its time.
/// </remarks>
public sealed class SamplesWriter
{
    private const int MostSamples = 255;
    private const int MostGap = 255;

    private readonly StreamFormat _format;
    private readonly int[] _run;
    private SampleBlock? _block;
    private long _begin;
    private bool _asksAtEnd;

    /// <summary>Creates a writer.</summary>
    /// <param name="format">The stream that the samples are of.</param>
    public SamplesWriter(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _format = format;
        _run = new int[format.Channels.Count];
    }

    /// <summary>First tick after the payload that was written last; before the first one the begin of the block.</summary>
    public long EndTick => _begin;

    /// <summary>Whether the block is used up.</summary>
    public bool IsDone => _block is null || _begin >= _block.EndTick;

    /// <summary>Longest stretch of time of a frame [ticks].</summary>
    /// <param name="format">The stream.</param>
    public static long MaximumTicks(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return (format.Clock.TicksPerSecond + 9) / 10;
    }

    /// <summary>Writes a time mark: everything before a tick is over. It asks for <c>progress</c>.</summary>
    /// <param name="tick">The tick, 0 to 2^62.</param>
    /// <param name="payload">Receives it; at least 16 bytes.</param>
    /// <returns>Bytes written.</returns>
    public static int WriteTimeMark(long tick, Span<byte> payload)
    {
        payload[..SamplesPayload.FixedBytes].Clear();
        BinaryPrimitives.WriteInt64LittleEndian(payload, tick);
        payload[13] = SamplesPayload.AsksProgress;
        return SamplesPayload.FixedBytes;
    }

    /// <summary>Begins with a block; what was left of the last one is dropped.</summary>
    /// <param name="block">Made for the same format; must stay as it is until it is used up.</param>
    /// <param name="asksAtEnd">Whether the last frame asks for <c>progress</c>.</param>
    public void Begin(SampleBlock block, bool asksAtEnd)
    {
        ArgumentNullException.ThrowIfNull(block);
        _block = block;
        _begin = block.BeginTick;
        _asksAtEnd = asksAtEnd;
        Array.Clear(_run);
    }

    /// <summary>Writes the next payload.</summary>
    /// <param name="payload">Receives it; at least <see cref="FrameLimits.MaximumPayload"/> bytes.</param>
    /// <returns>Bytes written; 0 when the block is used up.</returns>
    public int Write(Span<byte> payload)
    {
        if (_block is null || IsDone)
        {
            return 0;
        }

        long end = EndOf(_block);
        BinaryPrimitives.WriteInt64LittleEndian(payload, _begin);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[8..], (uint)(end - _begin));
        payload[13] = _asksAtEnd && end == _block.EndTick ? SamplesPayload.AsksProgress : (byte)0;
        payload[14] = 0;
        payload[15] = 0;
        int at = SamplesPayload.FixedBytes;
        byte sections = 0;
        for (int i = 0; i < _run.Length; i++)
        {
            int count = Piece(_block, i, end, out long first, out int offset);
            if (count > 0)
            {
                at += WriteSection(_block.Channels[i], i, first, offset, count, payload[at..]);
                sections++;
            }
        }

        payload[12] = sections;
        _begin = end;
        return at;
    }

    // The longest stretch from the begin on that makes one frame.
    private long EndOf(SampleBlock block)
    {
        long end = Math.Min(block.EndTick, TenthAfter(_begin));
        for (int i = 0; i < _run.Length; i++)
        {
            end = UnbrokenEnd(block, i, end);
        }

        while (!Fits(block, end))
        {
            end = _begin + ((end - _begin) / 2);
        }

        return end;
    }

    // The first tick of the next tenth of a second.
    private long TenthAfter(long tick)
    {
        long perSecond = _format.Clock.TicksPerSecond;
        long second = Math.DivRem(tick, perSecond, out long rest);
        long tenth = (rest * 10 / perSecond) + 1;
        return (second * perSecond) + (((tenth * perSecond) + 9) / 10);
    }

    // Where a channel goes on after a gap: at its second run, or at its first one when the gap before it is too long to tell.
    private long UnbrokenEnd(SampleBlock block, int channel, long end)
    {
        ReadOnlySpan<SampleRun> runs = block.Channels[channel].Runs;
        long step = _format.TicksPerSample(channel);
        int run = RunAt(block, channel);
        if (run == runs.Length)
        {
            return end;
        }

        long gap = runs[run].FirstIndex - _format.FirstSampleAtOrAfter(channel, _begin);
        if (gap > MostGap)
        {
            return Math.Min(end, runs[run].FirstIndex * step);
        }

        return run + 1 < runs.Length ? Math.Min(end, runs[run + 1].FirstIndex * step) : end;
    }

    private bool Fits(SampleBlock block, long end)
    {
        int bytes = SamplesPayload.FixedBytes;
        for (int i = 0; i < _run.Length; i++)
        {
            int count = Piece(block, i, end, out _, out int offset);
            if (count > MostSamples)
            {
                return false;
            }

            if (count > 0)
            {
                int mode = StatusMode(block.Channels[i].Status.Slice(offset, count));
                bytes += SamplesPayload.SectionBytes + SamplesSections.StatusBytes(mode, count) + BitPacking.Bytes(count, _format.Channels[i].Bits);
            }
        }

        return bytes <= FrameLimits.MaximumPayload;
    }

    // The run of a channel that has samples at or after the begin.
    private int RunAt(SampleBlock block, int channel)
    {
        ReadOnlySpan<SampleRun> runs = block.Channels[channel].Runs;
        long from = _format.FirstSampleAtOrAfter(channel, _begin);
        ref int run = ref _run[channel];
        while (run < runs.Length && runs[run].FirstIndex + runs[run].Count <= from)
        {
            run++;
        }

        return run;
    }

    // Samples of a channel from the begin up to a tick that lie in one run.
    private int Piece(SampleBlock block, int channel, long end, out long first, out int offset)
    {
        ReadOnlySpan<SampleRun> runs = block.Channels[channel].Runs;
        int run = RunAt(block, channel);
        (first, offset) = (0, 0);
        if (run == runs.Length)
        {
            return 0;
        }

        first = Math.Max(runs[run].FirstIndex, _format.FirstSampleAtOrAfter(channel, _begin));
        offset = runs[run].Offset + (int)(first - runs[run].FirstIndex);
        long after = Math.Min(runs[run].FirstIndex + runs[run].Count, _format.FirstSampleAtOrAfter(channel, end));
        return (int)Math.Max(0, after - first);
    }

    private int WriteSection(ChannelBlock channel, int number, long first, int offset, int count, Span<byte> bytes)
    {
        ReadOnlySpan<ushort> status = channel.Status.Slice(offset, count);
        int mode = StatusMode(status);
        bytes[0] = (byte)number;
        bytes[1] = (byte)mode;
        bytes[2] = (byte)count;
        bytes[3] = (byte)(first - _format.FirstSampleAtOrAfter(number, _begin));
        int words = mode == 0 ? 0 : mode == 1 ? 1 : count;
        for (int i = 0; i < words; i++)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(bytes[(SamplesPayload.SectionBytes + (2 * i))..], status[i]);
        }

        int at = SamplesPayload.SectionBytes + (2 * words);
        int codeBytes = BitPacking.Bytes(count, _format.Channels[number].Bits);
        BitPacking.Pack(channel.Codes.Slice(offset, count), _format.Channels[number].Bits, bytes.Slice(at, codeBytes));
        return at + codeBytes;
    }

    private static int StatusMode(ReadOnlySpan<ushort> status)
        => status.ContainsAnyExcept(status[0]) ? 2 : status[0] == 0 ? 0 : 1;
}
