// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames;

/// <summary>Finds the frames in bytes as they come, in any cuts. Never throws on any bytes, and allocates nothing.</summary>
/// <remarks>
/// A receiver that has lost its place finds it again at the next 00. Before the first accepted frame any number is taken as the one expected.
/// Not safe for use by several threads at once.
/// </remarks>
public sealed class FrameReader
{
    private readonly byte[] _bytes = new byte[FrameLimits.MaximumEncoded];
    private int _length;
    private bool _isTooLong;
    private bool _hasLast;
    private uint _last;
    private long _good;
    private long _damaged;
    private long _missing;
    private long _repeated;
    private long _otherVersion;

    /// <summary>What has been counted so far.</summary>
    public FrameCounts Counts => new(_good, _damaged, _missing, _repeated, _otherVersion);

    /// <summary>Number of the last frame of another version; meaningful when <see cref="FrameCounts.OtherVersion"/> has gone up.</summary>
    public uint OtherVersionSequence { get; private set; }

    /// <summary>Takes bytes up to the end of the next frame that is accepted.</summary>
    /// <param name="bytes">The bytes that have come; what was taken is cut off their front. Call again until none is left.</param>
    /// <param name="frame">The frame; its payload is valid until the next call.</param>
    /// <returns>Whether there is a frame; if not, all bytes were taken.</returns>
    public bool TryRead(ref ReadOnlySpan<byte> bytes, out Frame frame)
    {
        while (!bytes.IsEmpty)
        {
            int end = bytes.IndexOf((byte)0);
            Keep(end < 0 ? bytes : bytes[..end]);
            bytes = end < 0 ? default : bytes[(end + 1)..];
            if (end >= 0 && TryFinish(out frame))
            {
                return true;
            }
        }

        frame = default;
        return false;
    }

    /// <summary>Forgets a frame that has not come whole, as after a link was opened anew; nothing is counted.</summary>
    public void DropRest()
    {
        _length = 0;
        _isTooLong = false;
    }

    private void Keep(ReadOnlySpan<byte> bytes)
    {
        int room = _bytes.Length - _length;
        _isTooLong |= bytes.Length > room;
        bytes = bytes[..Math.Min(bytes.Length, room)];
        bytes.CopyTo(_bytes.AsSpan(_length));
        _length += bytes.Length;
    }

    // A 00 has come: what was kept is a frame, or is not.
    private bool TryFinish(out Frame frame)
    {
        frame = default;
        bool isTooLong = _isTooLong;
        int kept = _length;
        DropRest();
        if (kept == 0)
        {
            return false;
        }

        if (isTooLong || !Cobs.TryDecode(_bytes.AsSpan(0, kept), _bytes, out int length) || !IsSound(_bytes.AsSpan(0, length)))
        {
            _damaged++;
            return false;
        }

        uint sequence = BinaryPrimitives.ReadUInt32LittleEndian(_bytes.AsSpan(4));
        if (_bytes[0] != FrameLimits.Version)
        {
            _damaged++;
            _otherVersion++;
            OtherVersionSequence = sequence;
            return false;
        }

        var type = (FrameType)_bytes[1];
        if (_hasLast && type is not (FrameType.Hello or FrameType.About))
        {
            int ahead = unchecked((int)(sequence - _last));
            if (ahead <= 0)
            {
                _repeated++;
                return false;
            }

            _missing += ahead - 1;
        }

        _hasLast = true;
        _last = sequence;
        _good++;
        frame = new Frame(type, sequence, _bytes.AsSpan(FrameLimits.HeaderBytes, length - FrameLimits.HeaderBytes - FrameLimits.CheckBytes));
        return true;
    }

    private static bool IsSound(ReadOnlySpan<byte> body)
    {
        const int Least = FrameLimits.HeaderBytes + FrameLimits.CheckBytes;
        return body.Length >= Least
            && BinaryPrimitives.ReadUInt16LittleEndian(body[2..]) == body.Length - Least
            && BinaryPrimitives.ReadUInt32LittleEndian(body[^FrameLimits.CheckBytes..]) == Crc32C.Of(body[..^FrameLimits.CheckBytes]);
    }
}
