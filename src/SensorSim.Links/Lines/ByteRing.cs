// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Lines;

/// <summary>Bytes in order between two threads of which one puts and the other takes. Fixed size; the caller holds the lock.</summary>
internal sealed class ByteRing
{
    private readonly byte[] _bytes;
    private int _first;

    /// <summary>Creates an empty ring.</summary>
    /// <param name="capacity">Most bytes it holds.</param>
    public ByteRing(int capacity) => _bytes = new byte[capacity];

    /// <summary>Bytes that are held.</summary>
    public int Count { get; private set; }

    /// <summary>Bytes that still fit.</summary>
    public int Free => _bytes.Length - Count;

    /// <summary>Adds bytes at the end; they must fit.</summary>
    /// <param name="bytes">At most <see cref="Free"/> bytes.</param>
    public void Put(ReadOnlySpan<byte> bytes)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(bytes.Length, Free, nameof(bytes));
        int at = (_first + Count) % _bytes.Length;
        int head = Math.Min(bytes.Length, _bytes.Length - at);
        bytes[..head].CopyTo(_bytes.AsSpan(at));
        bytes[head..].CopyTo(_bytes);
        Count += bytes.Length;
    }

    /// <summary>Takes bytes from the begin.</summary>
    /// <param name="into">Receives as many as there are and fit.</param>
    /// <returns>Bytes taken.</returns>
    public int Take(Span<byte> into)
    {
        int count = Math.Min(into.Length, Count);
        int head = Math.Min(count, _bytes.Length - _first);
        _bytes.AsSpan(_first, head).CopyTo(into);
        _bytes.AsSpan(0, count - head).CopyTo(into[head..]);
        _first = (_first + count) % _bytes.Length;
        Count -= count;
        return count;
    }
}
