// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Files.Journals;

/// <summary>Takes the records of a journal.</summary>
/// <param name="record">Content of a record; valid during the call only.</param>
public delegate void JournalRecord(ReadOnlySpan<byte> record);

/// <summary>Reads a journal from its start to the last whole record.</summary>
public static class JournalReader
{
    /// <summary>Reads the owner's header.</summary>
    /// <param name="stream">The file, at its start; stands at the first record afterwards.</param>
    /// <param name="name">Its name in messages.</param>
    /// <exception cref="InputFileException">The file is no journal, is damaged, or is of another version.</exception>
    public static byte[] ReadHeader(Stream stream, string name)
    {
        ArgumentNullException.ThrowIfNull(stream);
        byte[] head = new byte[JournalFormat.HeadBytes];
        int count = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        if (count < head.Length || !JournalFormat.HasLetters(head))
        {
            throw new InputFileException(name, 0, 0, "this is not a journal; name a folder in which a sweep was begun.");
        }

        if (!JournalFormat.HasVersion(head))
        {
            throw new InputFileException(name, 0, 0, "the journal was written by a version of the program with another format; go on with that one, or begin in another folder.");
        }

        uint length = JournalFormat.HeaderLength(head);
        if (length <= JournalFormat.LongestBytes && length + JournalFormat.SumBytes <= stream.Length - stream.Position)
        {
            byte[] header = new byte[length];
            byte[] sum = new byte[JournalFormat.SumBytes];
            stream.ReadExactly(header);
            stream.ReadExactly(sum);
            if (BinaryPrimitives.ReadUInt32LittleEndian(sum) == JournalFormat.Sum([.. head, .. header]))
            {
                return header;
            }
        }

        throw new InputFileException(name, 0, 0, "the journal is damaged at its very beginning; delete it and begin anew.");
    }

    /// <summary>Reads the records, up to the first that is not whole.</summary>
    /// <param name="stream">The file, behind the header.</param>
    /// <param name="take">Takes each of them.</param>
    /// <returns>Where the last whole record ends; what follows is the torn end of an interrupted writing.</returns>
    public static long ReadRecords(Stream stream, JournalRecord take)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(take);
        long end = stream.Position;
        long size = stream.Length;
        byte[] frame = new byte[1 << 12];
        while (size - end >= JournalFormat.FrameBytes)
        {
            stream.ReadExactly(frame, 0, JournalFormat.FrameBytes);
            uint length = BinaryPrimitives.ReadUInt32LittleEndian(frame);
            if (length > JournalFormat.LongestBytes || length > size - end - JournalFormat.FrameBytes)
            {
                break;
            }

            int total = JournalFormat.FrameBytes + (int)length;
            if (total > frame.Length)
            {
                Array.Resize(ref frame, Math.Max(total, 2 * frame.Length));
            }

            stream.ReadExactly(frame, JournalFormat.FrameBytes, (int)length);
            if (!JournalFormat.IsWhole(frame.AsSpan(0, total)))
            {
                break;
            }

            take(frame.AsSpan(JournalFormat.FrameBytes, (int)length));
            end += total;
        }

        return end;
    }
}
