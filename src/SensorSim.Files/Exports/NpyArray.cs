// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Files.Exports;

/// <summary>Writes one NPY file, version 1.0: a one-dimensional array of little-endian whole numbers.</summary>
/// <remarks>
/// Layout: NumPy Enhancement Proposal 1. The length is known only at the end, so the header is written again then; its 128 bytes hold every
/// length, and are the bytes that NumPy itself writes.
/// </remarks>
internal sealed class NpyArray : IDisposable
{
    /// <summary>Bytes before the first value.</summary>
    public const int HeaderBytes = 128;

    private const int PreambleBytes = 10;

    private readonly Stream _stream;
    private readonly string _type;
    private readonly int _width;
    private readonly byte[] _buffer = new byte[1 << 13];
    private int _used;
    private long _count;

    /// <summary>Starts the file.</summary>
    /// <param name="stream">Takes it; can seek; closed with the array.</param>
    /// <param name="type">Type in NumPy's words, such as <c>&lt;i4</c>: the number is the width in bytes.</param>
    public NpyArray(Stream stream, string type)
    {
        _stream = stream;
        _type = type;
        _width = type[^1] - '0';
        _stream.Write(Header());
    }

    /// <summary>Appends a value; what does not fit the type is cut off at its high end.</summary>
    public void Append(long value)
    {
        if (_used + sizeof(long) > _buffer.Length)
        {
            Flush();
        }

        System.Buffers.Binary.BinaryPrimitives.WriteInt64LittleEndian(_buffer.AsSpan(_used), value);
        _used += _width;
        _count++;
    }

    /// <summary>Writes the length into the header and closes the file.</summary>
    public void Complete()
    {
        Flush();
        _stream.Position = 0;
        _stream.Write(Header());
        Dispose();
    }

    public void Dispose() => _stream.Dispose();

    private void Flush()
    {
        _stream.Write(_buffer, 0, _used);
        _used = 0;
    }

    private byte[] Header()
    {
        string shape = _count.ToString(CultureInfo.InvariantCulture);
        string text = $"{{'descr': '{_type}', 'fortran_order': False, 'shape': ({shape},), }}".PadRight(HeaderBytes - PreambleBytes - 1) + "\n";
        byte[] header = [0x93, (byte)'N', (byte)'U', (byte)'M', (byte)'P', (byte)'Y', 1, 0, HeaderBytes - PreambleBytes, 0, .. Encoding.ASCII.GetBytes(text)];
        return header.Length == HeaderBytes ? header : throw new InvalidOperationException("The header of an array has outgrown its place.");
    }
}
