// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Files.Edf;

/// <summary>Annotations that wait for room in a record: a buffer of stated size, first in, first out; what finds no place is counted.</summary>
internal sealed class EdfAnnotationQueue
{
    private const int Bytes = 1 << 18;
    private readonly byte[] _bytes = new byte[Bytes];
    private int _begin;
    private int _end;

    /// <summary>Annotations that were lost.</summary>
    public long Lost { get; private set; }

    /// <summary>Adds an annotation; an empty one counts as lost.</summary>
    public void Add(ReadOnlySpan<byte> annotation)
    {
        int need = annotation.Length + sizeof(ushort);
        if (_end + need > Bytes)
        {
            _bytes.AsSpan(_begin, _end - _begin).CopyTo(_bytes);
            _end -= _begin;
            _begin = 0;
        }

        if (annotation.IsEmpty || _end + need > Bytes)
        {
            Lost++;
            return;
        }

        BinaryPrimitives.WriteUInt16LittleEndian(_bytes.AsSpan(_end), (ushort)annotation.Length);
        annotation.CopyTo(_bytes.AsSpan(_end + sizeof(ushort)));
        _end += need;
    }

    /// <summary>Puts what fits into the current record, in order.</summary>
    /// <param name="writer">The file.</param>
    /// <param name="leave">Bytes that must stay free.</param>
    public void Drain(EdfFileWriter writer, int leave)
    {
        while (_begin < _end)
        {
            int length = BinaryPrimitives.ReadUInt16LittleEndian(_bytes.AsSpan(_begin));
            if (length + leave > writer.AnnotationRoom || !writer.TryPut(_bytes.AsSpan(_begin + sizeof(ushort), length)))
            {
                return;
            }

            _begin += length + sizeof(ushort);
        }
    }

    /// <summary>Counts what still waits as lost.</summary>
    public void LoseRest()
    {
        for (; _begin < _end; Lost++)
        {
            _begin += BinaryPrimitives.ReadUInt16LittleEndian(_bytes.AsSpan(_begin)) + sizeof(ushort);
        }
    }
}
