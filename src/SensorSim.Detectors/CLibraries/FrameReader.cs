// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Text;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Takes a frame apart; every read is checked against its length.</summary>
internal sealed class FrameReader
{
    private byte[] _buffer = new byte[16 * 1024];
    private int _at;
    private int _end;

    /// <summary>Kind of the frame that was read last.</summary>
    public FrameKind Kind { get; private set; }

    /// <summary>Reads the next frame. The other end speaks only when it is its turn, so nothing follows.</summary>
    /// <returns>False when the other end has closed.</returns>
    /// <exception cref="InvalidDataException">What came is no frame, or breaks off.</exception>
    public bool ReadFrom(Stream stream)
    {
        int got = stream.ReadAtLeast(_buffer, FrameHead.Size, throwOnEndOfStream: false);
        if (got == 0)
        {
            return false;
        }

        if (got < FrameHead.Size)
        {
            throw new InvalidDataException("A frame breaks off in its head.");
        }

        (Kind, int rest) = FrameHead.Read(_buffer);
        _at = FrameHead.Size;
        _end = FrameHead.Size + rest;
        if (got > _end)
        {
            throw new InvalidDataException("More came than the frame holds.");
        }

        if (_buffer.Length < _end)
        {
            Array.Resize(ref _buffer, _end);
        }

        if (stream.ReadAtLeast(_buffer.AsSpan(got, _end - got), _end - got, throwOnEndOfStream: false) < _end - got)
        {
            throw new InvalidDataException("A frame breaks off.");
        }

        return true;
    }

    /// <summary>Takes a plain value.</summary>
    public T Take<T>()
        where T : unmanaged => MemoryMarshal.Read<T>(Piece(Marshal.SizeOf<T>()));

    /// <summary>Takes values into a buffer that is exactly as long.</summary>
    public void TakeAll<T>(Span<T> values)
        where T : unmanaged
    {
        Span<byte> bytes = MemoryMarshal.AsBytes(values);
        Piece(bytes.Length).CopyTo(bytes);
    }

    /// <summary>Takes a count that something of at least a byte each follows.</summary>
    public int TakeCount()
    {
        int count = Take<int>();
        return (uint)count <= (uint)(_end - _at) ? count : throw new InvalidDataException("A frame promises more than it holds.");
    }

    /// <summary>Takes a text.</summary>
    public string TakeText() => Encoding.UTF8.GetString(Piece(TakeCount()));

    private ReadOnlySpan<byte> Piece(int bytes)
    {
        if (bytes > _end - _at)
        {
            throw new InvalidDataException("A frame is shorter than its content.");
        }

        _at += bytes;
        return _buffer.AsSpan(_at - bytes, bytes);
    }
}
