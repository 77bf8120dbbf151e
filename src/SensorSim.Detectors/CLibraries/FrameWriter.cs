// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Text;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Puts a frame together in a buffer that grows and is used again.</summary>
internal sealed class FrameWriter
{
    private byte[] _buffer = new byte[16 * 1024];
    private int _length = FrameHead.Size;
    private FrameKind _kind;

    /// <summary>A new frame begins.</summary>
    public FrameWriter Begin(FrameKind kind)
    {
        _kind = kind;
        _length = FrameHead.Size;
        return this;
    }

    /// <summary>Adds a plain value.</summary>
    public FrameWriter Add<T>(T value)
        where T : unmanaged
    {
        MemoryMarshal.Write(Room(Marshal.SizeOf<T>()), value);
        return this;
    }

    /// <summary>Adds values one after the other, without their count.</summary>
    public FrameWriter AddAll<T>(ReadOnlySpan<T> values)
        where T : unmanaged
    {
        ReadOnlySpan<byte> bytes = MemoryMarshal.AsBytes(values);
        bytes.CopyTo(Room(bytes.Length));
        return this;
    }

    /// <summary>Adds a text with its length.</summary>
    public FrameWriter AddText(string text)
    {
        int count = Encoding.UTF8.GetByteCount(text);
        Add(count);
        Encoding.UTF8.GetBytes(text, Room(count));
        return this;
    }

    /// <summary>Sends the frame in one piece.</summary>
    public void SendTo(Stream stream)
    {
        FrameHead.Write(_buffer, _kind, _length - FrameHead.Size);
        stream.Write(_buffer, 0, _length);
        stream.Flush();
    }

    private Span<byte> Room(int bytes)
    {
        if (_buffer.Length - _length < bytes)
        {
            Array.Resize(ref _buffer, Math.Max(checked(_length + bytes), checked(_buffer.Length * 2)));
        }

        Span<byte> room = _buffer.AsSpan(_length, bytes);
        _length += bytes;
        return room;
    }
}
