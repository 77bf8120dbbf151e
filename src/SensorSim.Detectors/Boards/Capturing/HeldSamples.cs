// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Boards.Capturing;

/// <summary>Samples between the frames of a board, which end where they like, and the blocks of a reader, which end where it likes.</summary>
internal sealed class HeldSamples
{
    private readonly StreamFormat _format;
    private readonly long _roomTicks;
    private SampleBlock _held;
    private SampleBlock _spare;

    /// <summary>Creates an empty store.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="roomTicks">Longest stretch held [ticks].</param>
    public HeldSamples(StreamFormat format, long roomTicks)
    {
        _format = format;
        _roomTicks = roomTicks;
        _held = new SampleBlock(format, roomTicks);
        _spare = new SampleBlock(format, roomTicks);
        _held.Begin(0, roomTicks);
    }

    /// <summary>Whether the stretch of these samples finds room.</summary>
    public bool HasRoomFor(in SamplesPayload samples) => samples.EndTick <= _held.EndTick;

    /// <summary>Keeps samples that lie after all that are held.</summary>
    public void Add(in SamplesPayload samples) => samples.AppendTo(_held);

    /// <summary>Hands out everything before a tick and keeps the rest.</summary>
    /// <param name="block">Receives the samples.</param>
    /// <param name="endTick">First tick after them.</param>
    public void MoveTo(SampleBlock block, long endTick)
    {
        block.Begin(_held.BeginTick, endTick);
        _spare.Begin(endTick, endTick + _roomTicks);
        for (int c = 0; c < _format.Channels.Count; c++)
        {
            long border = _format.FirstSampleAtOrAfter(c, endTick);
            foreach (SampleRun run in _held.Channels[c].Runs)
            {
                int before = (int)Math.Clamp(border - run.FirstIndex, 0, run.Count);
                Copy(_held.Channels[c], run with { Count = before }, block.Channels[c]);
                Copy(_held.Channels[c], new SampleRun(run.FirstIndex + before, run.Offset + before, run.Count - before), _spare.Channels[c]);
            }
        }

        (_held, _spare) = (_spare, _held);
    }

    private static void Copy(ChannelBlock from, SampleRun run, ChannelBlock to)
    {
        if (run.Count == 0)
        {
            return;
        }

        to.Append(run.FirstIndex, run.Count, out Span<int> codes, out Span<ushort> status);
        from.Codes.Slice(run.Offset, run.Count).CopyTo(codes);
        from.Status.Slice(run.Offset, run.Count).CopyTo(status);
    }
}
