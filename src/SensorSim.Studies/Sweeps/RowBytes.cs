// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Sweeps;

/// <summary>A row of a study as bytes and back, exactly.</summary>
/// <remarks>
/// Little-endian; counts and lengths in groups of seven bits; sums as 16 bytes; channels and kinds by their names, so that a table of kinds
/// that grows changes nothing.
/// </remarks>
public static class RowBytes
{
    /// <summary>Version of the layout; the first byte of every row.</summary>
    public const byte Version = 1;

    /// <summary>The bytes of a row.</summary>
    /// <param name="row">The row.</param>
    public static byte[] Of(RunRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        using var stream = new MemoryStream(1024);
        using (var writer = new BinaryWriter(stream, Encoding.UTF8, leaveOpen: true))
        {
            writer.Write(Version);
            writer.Write7BitEncodedInt64(row.Run);
            writer.Write((byte)row.Verdict);
            writer.Write(row.VerdictReason);
            writer.Write7BitEncodedInt64(row.SampleCount);
            writer.Write7BitEncodedInt64(row.MarkCount);
            writer.Write7BitEncodedInt64(row.ScoredNs);
            writer.Write7BitEncodedInt(row.Events.Count);
            foreach (EventRow events in row.Events)
            {
                Write(writer, events);
            }

            writer.Write7BitEncodedInt(row.Readings.Count);
            foreach (ReadingRow readings in row.Readings)
            {
                Write(writer, readings);
            }
        }

        return stream.ToArray();
    }

    /// <summary>The row of some bytes.</summary>
    /// <param name="bytes">What <see cref="Of"/> gave.</param>
    /// <exception cref="FormatException">The bytes are no row, or one of another version.</exception>
    public static RunRow Read(ReadOnlySpan<byte> bytes)
    {
        using var stream = new MemoryStream(bytes.ToArray(), writable: false);
        using var reader = new BinaryReader(stream, Encoding.UTF8);
        try
        {
            RunRow row = Read(reader);
            return stream.Position == stream.Length ? row : throw new FormatException("The row is longer than what it holds.");
        }
        catch (EndOfStreamException e)
        {
            throw new FormatException("The row ends too early.", e);
        }
    }

    private static RunRow Read(BinaryReader reader)
    {
        byte version = reader.ReadByte();
        if (version != Version)
        {
            throw new FormatException($"The row is of version {version}; this program reads version {Version}.");
        }

        return new RunRow
        {
            Run = reader.Read7BitEncodedInt64(),
            Verdict = (Verdict)reader.ReadByte(),
            VerdictReason = reader.ReadString(),
            SampleCount = reader.Read7BitEncodedInt64(),
            MarkCount = reader.Read7BitEncodedInt64(),
            ScoredNs = reader.Read7BitEncodedInt64(),
            Events = Many(reader, ReadEvents),
            Readings = Many(reader, ReadReadings),
        };
    }

    private static void Write(BinaryWriter writer, EventRow row)
    {
        writer.Write(row.Channel.Text());
        writer.Write(row.Kind.Text());
        writer.Write7BitEncodedInt64(row.Counts.Matched);
        writer.Write7BitEncodedInt64(row.Counts.Missed);
        writer.Write7BitEncodedInt64(row.Counts.Extra);
        writer.Write7BitEncodedInt64(row.TimedCount);
        Write(writer, row.TimingSumNs);
        Write(writer, row.TimingSquaresNs);
        Write(writer, row.TimingP95Ns);
        writer.Write7BitEncodedInt64(row.UnusableTruth);
        writer.Write7BitEncodedInt64(row.UnusableDetections);
    }

    private static EventRow ReadEvents(BinaryReader reader) => new()
    {
        Channel = ReadChannel(reader),
        Kind = ReadKind(reader),
        Counts = new DetectionCounts(reader.Read7BitEncodedInt64(), reader.Read7BitEncodedInt64(), reader.Read7BitEncodedInt64()),
        TimedCount = reader.Read7BitEncodedInt64(),
        TimingSumNs = ReadWide(reader),
        TimingSquaresNs = ReadWide(reader),
        TimingP95Ns = ReadOptional(reader),
        UnusableTruth = reader.Read7BitEncodedInt64(),
        UnusableDetections = reader.Read7BitEncodedInt64(),
    };

    private static void Write(BinaryWriter writer, ReadingRow row)
    {
        writer.Write(row.Channel.Text());
        writer.Write(row.Kind.Text());
        writer.Write7BitEncodedInt64(row.Count);
        Write(writer, row.SumMicro);
        Write(writer, row.SquaresMicro);
        writer.Write7BitEncodedInt64(row.OffCount);
        writer.Write7BitEncodedInt64(row.NothingThereCount);
        writer.Write7BitEncodedInt64(row.InUnusableCount);
        Write(writer, row.FirstReadingNs);
        writer.Write7BitEncodedInt64(row.UsableNs);
        writer.Write7BitEncodedInt64(row.AvailableNs);
        Write(writer, row.LatencySumNs);
    }

    private static ReadingRow ReadReadings(BinaryReader reader) => new()
    {
        Channel = ReadChannel(reader),
        Kind = ReadKind(reader),
        Count = reader.Read7BitEncodedInt64(),
        SumMicro = ReadWide(reader),
        SquaresMicro = ReadWide(reader),
        OffCount = reader.Read7BitEncodedInt64(),
        NothingThereCount = reader.Read7BitEncodedInt64(),
        InUnusableCount = reader.Read7BitEncodedInt64(),
        FirstReadingNs = ReadOptional(reader),
        UsableNs = reader.Read7BitEncodedInt64(),
        AvailableNs = reader.Read7BitEncodedInt64(),
        LatencySumNs = ReadWide(reader),
    };

    private static T[] Many<T>(BinaryReader reader, Func<BinaryReader, T> one)
    {
        int count = reader.Read7BitEncodedInt();
        if (count < 0 || count > reader.BaseStream.Length)
        {
            throw new FormatException("The row holds more parts than bytes.");
        }

        var rows = new T[count];
        for (int i = 0; i < count; i++)
        {
            rows[i] = one(reader);
        }

        return rows;
    }

    private static ChannelName ReadChannel(BinaryReader reader)
    {
        string text = reader.ReadString();
        return ChannelNames.TryParse(text, out ChannelName channel) ? channel : throw new FormatException($"The row names the channel {text}, which there is not.");
    }

    private static MarkKind ReadKind(BinaryReader reader)
    {
        string text = reader.ReadString();
        return MarkKinds.TryParse(text, out MarkKind kind) ? kind : throw new FormatException($"The row names the kind {text}, which there is not.");
    }

    private static void Write(BinaryWriter writer, Int128 value)
    {
        writer.Write(unchecked((ulong)value));
        writer.Write(unchecked((long)(value >> 64)));
    }

    private static Int128 ReadWide(BinaryReader reader)
    {
        ulong low = reader.ReadUInt64();
        return new Int128(reader.ReadUInt64(), low);
    }

    private static void Write(BinaryWriter writer, long? value)
    {
        writer.Write(value.HasValue);
        writer.Write7BitEncodedInt64(value ?? 0);
    }

    private static long? ReadOptional(BinaryReader reader)
    {
        bool hasValue = reader.ReadBoolean();
        long value = reader.Read7BitEncodedInt64();
        return hasValue ? value : null;
    }
}
