// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Board: answers of the detector.</summary>
public static class MarkPayload
{
    /// <summary>Most marks in one frame.</summary>
    public const int MaximumCount = 5;

    private const int FixedBytes = 4;
    private const int MarkBytes = 44;
    private const byte NotPaired = 255;
    private const byte HasValue = 1;
    private const byte IsInCodes = 2;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>marks</c> frame.</param>
    /// <param name="format">The stream; a value in codes becomes thousandths of its channel's unit.</param>
    /// <param name="marks">Receives the marks; room for <see cref="MaximumCount"/>.</param>
    /// <param name="count">How many there are.</param>
    /// <returns>Whether it is one, of kinds that are defined and channels that the stream has.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, StreamFormat format, Span<Mark> marks, out int count)
    {
        ArgumentNullException.ThrowIfNull(format);
        count = 0;
        if (payload.Length < FixedBytes || payload[0] is 0 or > MaximumCount || payload.Length != FixedBytes + (MarkBytes * payload[0]) || payload[0] > marks.Length)
        {
            return false;
        }

        for (int i = 0; i < payload[0]; i++)
        {
            ReadOnlySpan<byte> bytes = payload.Slice(FixedBytes + (MarkBytes * i), MarkBytes);
            if (bytes[0] >= MarkKinds.All.Count || bytes[1] >= format.Channels.Count || (bytes[2] != NotPaired && bytes[2] >= format.Channels.Count))
            {
                return false;
            }

            marks[i] = Read(bytes, format);
        }

        count = payload[0];
        return true;
    }

    /// <summary>Writes the payload; values go as thousandths.</summary>
    /// <param name="marks">1 to <see cref="MaximumCount"/> marks.</param>
    /// <param name="payload">Receives it; 4 bytes and 44 for each, 224 always do.</param>
    /// <returns>Bytes written.</returns>
    /// <exception cref="ArgumentException">There are none, or too many.</exception>
    public static int Write(ReadOnlySpan<Mark> marks, Span<byte> payload)
    {
        if (marks.Length is 0 or > MaximumCount)
        {
            throw new ArgumentException($"A frame holds 1 to {MaximumCount} marks, not {marks.Length}.", nameof(marks));
        }

        int length = FixedBytes + (MarkBytes * marks.Length);
        payload[..length].Clear();
        payload[0] = (byte)marks.Length;
        for (int i = 0; i < marks.Length; i++)
        {
            Write(marks[i], payload.Slice(FixedBytes + (MarkBytes * i), MarkBytes));
        }

        return length;
    }

    private static Mark Read(ReadOnlySpan<byte> bytes, StreamFormat format)
    {
        bool isPaired = bytes[2] != NotPaired;
        bool hasValue = (bytes[6] & HasValue) != 0;
        int value = BinaryPrimitives.ReadInt32LittleEndian(bytes[40..]);
        return new Mark
        {
            Kind = (MarkKind)bytes[0],
            Channel = bytes[1],
            PairedChannel = isPaired ? bytes[2] : Mark.None,
            Quality = bytes[3],
            Fraction256 = bytes[4],
            PairedFraction256 = isPaired ? bytes[5] : (byte)0,
            Sample = BinaryPrimitives.ReadInt64LittleEndian(bytes[8..]),
            PairedSample = isPaired ? BinaryPrimitives.ReadInt64LittleEndian(bytes[16..]) : 0,
            WindowSamples = BinaryPrimitives.ReadInt64LittleEndian(bytes[24..]),
            EmittedTick = BinaryPrimitives.ReadInt64LittleEndian(bytes[32..]),
            HasValue = hasValue,
            ValueMilli = (bytes[6] & IsInCodes) == 0 ? value : MarkValues.Milli(value, MarkValues.MilliPerCode(format.Channels[bytes[1]])),
        };
    }

    private static void Write(in Mark mark, Span<byte> bytes)
    {
        bytes[0] = (byte)mark.Kind;
        bytes[1] = (byte)mark.Channel;
        bytes[2] = mark.PairedChannel == Mark.None ? NotPaired : (byte)mark.PairedChannel;
        bytes[3] = mark.Quality;
        bytes[4] = mark.Fraction256;
        bytes[5] = mark.PairedFraction256;
        bytes[6] = mark.HasValue ? HasValue : (byte)0;
        BinaryPrimitives.WriteInt64LittleEndian(bytes[8..], mark.Sample);
        BinaryPrimitives.WriteInt64LittleEndian(bytes[16..], mark.PairedSample);
        BinaryPrimitives.WriteInt64LittleEndian(bytes[24..], mark.WindowSamples);
        BinaryPrimitives.WriteInt64LittleEndian(bytes[32..], mark.EmittedTick);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[40..], mark.ValueMilli);
    }
}
