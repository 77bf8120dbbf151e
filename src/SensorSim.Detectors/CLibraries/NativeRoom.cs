// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Memory outside of the heap, where a block is laid for a C library. Copied, so the library can spoil no sample of ours.</summary>
internal sealed unsafe class NativeRoom : IDisposable
{
    private readonly CChannelBlock* _channels;
    private readonly int[] _sampleRoom;
    private readonly int[] _runRoom;
    private readonly int _count;

    /// <summary>Creates room for the channels of a stream.</summary>
    public NativeRoom(int channelCount)
    {
        _count = channelCount;
        _channels = (CChannelBlock*)NativeMemory.AllocZeroed((nuint)channelCount, (nuint)sizeof(CChannelBlock));
        _sampleRoom = new int[channelCount];
        _runRoom = new int[channelCount];
    }

    ~NativeRoom() => Free();

    /// <summary>Lays a block out; valid until the next one.</summary>
    public CBlock Lay(SampleBlock block)
    {
        for (int c = 0; c < _count; c++)
        {
            Lay(block.Channels[c], c);
        }

        return new CBlock
        {
            Size = (uint)sizeof(CBlock),
            ChannelCount = _count,
            BeginTick = block.BeginTick,
            EndTick = block.EndTick,
            Channels = _channels,
        };
    }

    public void Dispose()
    {
        Free();
        GC.SuppressFinalize(this);
    }

    private void Lay(ChannelBlock from, int channel)
    {
        ref CChannelBlock to = ref _channels[channel];
        if (from.Count > _sampleRoom[channel])
        {
            _sampleRoom[channel] = from.Count;
            to.Codes = (int*)NativeMemory.Realloc(to.Codes, (nuint)from.Count * sizeof(int));
            to.Status = (ushort*)NativeMemory.Realloc(to.Status, (nuint)from.Count * sizeof(ushort));
        }

        if (from.Runs.Length > _runRoom[channel])
        {
            _runRoom[channel] = from.Runs.Length;
            to.Runs = (CRun*)NativeMemory.Realloc(to.Runs, (nuint)from.Runs.Length * (nuint)sizeof(CRun));
        }

        from.Codes.CopyTo(new Span<int>(to.Codes, from.Count));
        from.Status.CopyTo(new Span<ushort>(to.Status, from.Count));
        for (int r = 0; r < from.Runs.Length; r++)
        {
            SampleRun run = from.Runs[r];
            to.Runs[r] = new CRun { FirstIndex = run.FirstIndex, Offset = run.Offset, Count = run.Count };
        }

        to.SampleCount = from.Count;
        to.RunCount = from.Runs.Length;
    }

    private void Free()
    {
        for (int c = 0; c < _count; c++)
        {
            NativeMemory.Free(_channels[c].Codes);
            NativeMemory.Free(_channels[c].Status);
            NativeMemory.Free(_channels[c].Runs);
        }

        NativeMemory.Free(_channels);
    }
}
