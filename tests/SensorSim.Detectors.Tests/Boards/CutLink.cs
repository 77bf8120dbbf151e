// SPDX-License-Identifier: MIT
using SensorSim.Links;

namespace SensorSim.Tests.Boards;

/// <summary>The host's end of a link whose cable is pulled after a stated number of bytes, in the middle of a frame where it falls so.</summary>
/// <param name="inner">The link.</param>
/// <param name="end">The board's end of the same link.</param>
/// <param name="cutAt">Bytes that still get through.</param>
/// <param name="held">So many of them reach the board only when the cable is out already, as on a busy machine.</param>
internal sealed class CutLink(MemoryLink inner, CutEnd end, long cutAt, int held) : ILink
{
    private readonly List<byte> _late = [];
    private long _written;

    public string Name => inner.Name;

    public long? BytesPerSecond => null;

    /// <summary>Bytes that the host has written.</summary>
    public long Written => _written;

    public int Read(Span<byte> buffer, TimeSpan atMost) => inner.Read(buffer, atMost);

    public void Write(ReadOnlySpan<byte> bytes)
    {
        ReadOnlySpan<byte> through = bytes[..(int)Math.Min(bytes.Length, cutAt - _written)];
        int now = (int)Math.Clamp(cutAt - held - _written, 0, through.Length);
        inner.Write(through[..now]);
        _late.AddRange(through[now..]);
        _written += through.Length;
        if (_written == cutAt)
        {
            end.Refuse();
            inner.Write(_late.ToArray());
            inner.Dispose();
            throw new LinkLostException("the cable is out");
        }
    }

    public void Dispose() => inner.Dispose();
}

/// <summary>The board's end of such a link.</summary>
/// <param name="inner">The link.</param>
/// <param name="chunk">Most bytes that are read at once.</param>
/// <param name="cutAt">Bytes of the board that get through; then the cable is out.</param>
internal sealed class CutEnd(MemoryLink inner, int chunk, long cutAt = long.MaxValue) : ILink
{
    private readonly ManualResetEventSlim _isEmpty = new();
    private long _written;
    private volatile bool _refuses;

    /// <summary>Bytes that the board has written.</summary>
    public long Written => _written;

    public string Name => inner.Name;

    public long? BytesPerSecond => null;

    /// <summary>The cable is out: nothing of the board gets through any more, though it may still read what came before.</summary>
    public void Refuse() => _refuses = true;

    /// <summary>Waits until the board has read all that came, and knows that the link is lost.</summary>
    public bool WaitUntilRead() => _isEmpty.Wait(TimeSpan.FromSeconds(20));

    public int Read(Span<byte> buffer, TimeSpan atMost)
    {
        try
        {
            return inner.Read(buffer[..Math.Min(chunk, buffer.Length)], atMost);
        }
        catch (LinkLostException)
        {
            _isEmpty.Set();
            throw;
        }
    }

    public void Write(ReadOnlySpan<byte> bytes)
    {
        if (_refuses)
        {
            throw new LinkLostException("the cable is out");
        }

        int through = (int)Math.Min(bytes.Length, cutAt - _written);
        inner.Write(bytes[..through]);
        _written += through;
        if (_written == cutAt)
        {
            _refuses = true;
            inner.Dispose();
            throw new LinkLostException("the cable is out");
        }
    }

    public void Dispose() => inner.Dispose();
}
