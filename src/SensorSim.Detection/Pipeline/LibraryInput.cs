// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pipeline;

/// <summary>Consecutive samples of one channel; none when there is nothing new.</summary>
/// <param name="codes">Codes.</param>
/// <param name="status">Status words (<see cref="SampleFlags"/>), as many.</param>
/// <param name="firstIndex">Index of the first sample.</param>
public readonly ref struct ChannelPiece(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status, long firstIndex)
{
    /// <summary>Codes.</summary>
    public ReadOnlySpan<int> Codes { get; } = codes;

    /// <summary>Status words.</summary>
    public ReadOnlySpan<ushort> Status { get; } = status;

    /// <summary>Index of the first sample.</summary>
    public long FirstIndex { get; } = firstIndex;

    /// <summary>The samples from an index up to another, as far as they are here.</summary>
    /// <param name="from">Index of the first sample wanted.</param>
    /// <param name="until">Index after the last.</param>
    public ChannelPiece Between(long from, long until)
    {
        long begin = from > FirstIndex ? from - FirstIndex : 0;
        long end = until - FirstIndex;
        end = end < Codes.Length ? end : Codes.Length;
        if (begin >= end)
        {
            return new ChannelPiece(default, default, FirstIndex);
        }

        int count = (int)(end - begin);
        return new ChannelPiece(Codes.Slice((int)begin, count), Status.Slice((int)begin, count), FirstIndex + begin);
    }
}

/// <summary>New samples of all channels up to a common tick, each channel without a gap inside: a gap shows in the next first index.</summary>
public ref struct LibraryInput
{
    /// <summary>ECG.</summary>
    public ChannelPiece Ecg;

    /// <summary>Red light.</summary>
    public ChannelPiece Red;

    /// <summary>Infrared light.</summary>
    public ChannelPiece Infrared;

    /// <summary>Green light.</summary>
    public ChannelPiece Green;

    /// <summary>Light without LED.</summary>
    public ChannelPiece Dark;

    /// <summary>Acceleration, first axis.</summary>
    public ChannelPiece AccelX;

    /// <summary>Acceleration, second axis.</summary>
    public ChannelPiece AccelY;

    /// <summary>Acceleration, third axis.</summary>
    public ChannelPiece AccelZ;
}
