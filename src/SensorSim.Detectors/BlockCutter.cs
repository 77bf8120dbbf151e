// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors;

/// <summary>Cuts blocks into slices inside of which no channel has a gap, as the library takes them.</summary>
internal sealed class BlockCutter
{
    private readonly int[] _channelOf;
    private readonly long[] _steps;
    private readonly int[] _run;
    private SampleBlock? _block;
    private long _now;
    private long _sameUntil;

    public BlockCutter(StreamFormat format)
    {
        _channelOf = SetupOf.ChannelsOf(format);
        _steps = new long[format.Channels.Count];
        _run = new int[format.Channels.Count];
        for (int i = 0; i < format.Channels.Count; i++)
        {
            _steps[i] = format.TicksPerSample(i);
        }
    }

    private BlockCutter()
    {
        _channelOf = [];
        _steps = [];
        _run = [];
    }

    public static BlockCutter Empty => new();

    /// <summary>A new block begins.</summary>
    public void Begin(SampleBlock block)
    {
        _block = block;
        _now = block.BeginTick;
        _sameUntil = block.BeginTick;
        Array.Clear(_run);
    }

    /// <summary>The next slice.</summary>
    /// <param name="latestEnd">Tick at which it ends at the latest.</param>
    /// <param name="input">Samples; also some that lie before or after the slice. The same variable for all slices of a block: it is filled anew only where a run ends.</param>
    /// <param name="untilTick">Where it ends.</param>
    /// <returns>Whether there is one.</returns>
    public bool TryNext(long latestEnd, ref LibraryInput input, out long untilTick)
    {
        untilTick = Math.Min(latestEnd, _block!.EndTick);
        if (_now >= _block.EndTick)
        {
            return false;
        }

        if (_now >= _sameUntil)
        {
            _sameUntil = Fill(ref input);
        }

        untilTick = Math.Min(untilTick, _sameUntil);
        _now = untilTick;
        return true;
    }

    // Returns the tick up to which these are the samples.
    private long Fill(ref LibraryInput input)
    {
        long untilTick = _block!.EndTick;
        input.Ecg = Piece(ChannelRole.Ecg, ref untilTick);
        input.Red = Piece(ChannelRole.Red, ref untilTick);
        input.Infrared = Piece(ChannelRole.Infrared, ref untilTick);
        input.Green = Piece(ChannelRole.Green, ref untilTick);
        input.Dark = Piece(ChannelRole.Dark, ref untilTick);
        input.AccelX = Piece(ChannelRole.AccelX, ref untilTick);
        input.AccelY = Piece(ChannelRole.AccelY, ref untilTick);
        input.AccelZ = Piece(ChannelRole.AccelZ, ref untilTick);
        return untilTick;
    }

    // The run that a channel is in or comes to next. The slice ends at the latest where the next run begins.
    private ChannelPiece Piece(ChannelRole role, scoped ref long untilTick)
    {
        int channel = _channelOf[(int)role];
        if (channel < 0)
        {
            return default;
        }

        ChannelBlock block = _block!.Channels[channel];
        ReadOnlySpan<SampleRun> runs = block.Runs;
        ref int at = ref _run[channel];
        while (at < runs.Length && (runs[at].FirstIndex + runs[at].Count - 1) * _steps[channel] < _now)
        {
            at++;
        }

        if (at == runs.Length)
        {
            return default;
        }

        if (at + 1 < runs.Length)
        {
            untilTick = Math.Min(untilTick, runs[at + 1].FirstIndex * _steps[channel]);
        }

        SampleRun run = runs[at];
        return new ChannelPiece(block.Codes.Slice(run.Offset, run.Count), block.Status.Slice(run.Offset, run.Count), run.FirstIndex);
    }
}
