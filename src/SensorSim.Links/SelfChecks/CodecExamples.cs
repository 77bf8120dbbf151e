// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Globalization;
using SensorSim.Links.Bluetooth;
using SensorSim.Links.Frames;

namespace SensorSim.Links.SelfChecks;

/// <summary>The examples in the folder <c>codecs</c> of a vector set against the codecs of the program, both ways where there are two.</summary>
/// <remarks>Each check says how much it looked at, and throws with the first thing that is wrong.</remarks>
public static class CodecExamples
{
    private const int Name = 0;

    /// <summary>Checks of bytes: <c>crc32c.csv</c>.</summary>
    /// <param name="folder">Folder of the tables.</param>
    /// <exception cref="InvalidDataException">A codec and its examples differ, or a table is none.</exception>
    public static string Checks(string folder)
    {
        ExampleTable table = ExampleTable.Read(Path.Combine(folder, "crc32c.csv"), "name,input_hex,output_hex,source");
        for (int row = 0; row < table.Rows.Count; row++)
        {
            byte[] made = new byte[sizeof(uint)];
            BinaryPrimitives.WriteUInt32LittleEndian(made, Crc32C.Of(table.Bytes(row, 1)));
            if (!made.AsSpan().SequenceEqual(table.Bytes(row, 2)))
            {
                throw Unlike(table, row, made, 2);
            }
        }

        return Count(table);
    }

    /// <summary>Bytes without 00: <c>cobs.csv</c>, and what must be refused: <c>cobs-damaged.csv</c>.</summary>
    /// <param name="folder">Folder of the tables.</param>
    /// <exception cref="InvalidDataException">A codec and its examples differ, or a table is none.</exception>
    public static string Framing(string folder)
    {
        ExampleTable table = ExampleTable.Read(Path.Combine(folder, "cobs.csv"), "name,input_hex,output_hex,source");
        for (int row = 0; row < table.Rows.Count; row++)
        {
            byte[] input = table.Bytes(row, 1);
            byte[] expected = table.Bytes(row, 2);
            byte[] room = new byte[Cobs.MaximumEncoded(input.Length)];
            byte[] made = room[..Cobs.Encode(input, room)];
            if (!made.AsSpan().SequenceEqual(expected))
            {
                throw Unlike(table, row, made, 2);
            }

            byte[] back = new byte[expected.Length];
            if (!Cobs.TryDecode(expected, back, out int length) || !back.AsSpan(0, length).SequenceEqual(input))
            {
                throw new InvalidDataException($"{Place(table, row)}: does not decode to the input");
            }
        }

        ExampleTable damaged = ExampleTable.Read(Path.Combine(folder, "cobs-damaged.csv"), "name,input_hex,source");
        for (int row = 0; row < damaged.Rows.Count; row++)
        {
            byte[] input = damaged.Bytes(row, 1);
            if (Cobs.TryDecode(input, new byte[input.Length + 1], out _))
            {
                throw new InvalidDataException($"{Place(damaged, row)}: was taken for sound");
            }
        }

        return $"{table.Rows.Count} examples both ways, {damaged.Rows.Count} damaged ones refused";
    }

    /// <summary>Numbers of 16 bits: <c>sfloat.csv</c>.</summary>
    /// <param name="folder">Folder of the tables.</param>
    /// <exception cref="InvalidDataException">A codec and its examples differ, or a table is none.</exception>
    public static string Numbers(string folder)
    {
        ExampleTable table = ExampleTable.Read(Path.Combine(folder, "sfloat.csv"), "name,value,exponent,output_hex,source");
        for (int row = 0; row < table.Rows.Count; row++)
        {
            byte[] bytes = table.Bytes(row, 3);
            string word = table.Rows[row][1];
            SFloat expected = new(bytes.Length == sizeof(ushort) ? BinaryPrimitives.ReadUInt16LittleEndian(bytes) : (ushort)0);
            SFloat made = Special(word) ?? SFloat.FromMilli((int)(table.Exact(row, 1) * 1000), (int)table.Whole(row, 2));
            if (bytes.Length != sizeof(ushort) || made.Raw != expected.Raw)
            {
                byte[] shown = new byte[sizeof(ushort)];
                BinaryPrimitives.WriteUInt16LittleEndian(shown, made.Raw);
                throw Unlike(table, row, shown, 3);
            }

            // Back: special words have no thousandths; the others are at most half a step of their own resolution away.
            bool isNumber = expected.TryMilli(out int milli);
            bool isRight = Special(word) is not null
                ? !isNumber
                : isNumber && Math.Abs(milli - (table.Exact(row, 1) * 1000)) <= HalfAStep(expected.Exponent);
            if (!isRight)
            {
                throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"{Place(table, row)}: reads as {expected.Value}"));
            }
        }

        return Count(table);
    }

    /// <summary>Whole frames as they stand on the wire: <c>frames.csv</c>.</summary>
    /// <param name="folder">Folder of the tables.</param>
    /// <exception cref="InvalidDataException">A codec and its examples differ, or a table is none.</exception>
    public static string Frames(string folder)
    {
        ExampleTable table = ExampleTable.Read(Path.Combine(folder, "frames.csv"), "name,type_hex,sequence,payload_hex,wire_hex,source");
        for (int row = 0; row < table.Rows.Count; row++)
        {
            byte[] payload = table.Bytes(row, 3);
            byte[] wire = table.Bytes(row, 4);
            var type = (FrameType)table.Bytes(row, 1)[0];
            uint sequence = (uint)table.Whole(row, 2);
            byte[] room = new byte[FrameLimits.WireBuffer];
            byte[] made = room[..new FrameWriter(sequence).Write(type, payload, room)];
            if (!made.AsSpan().SequenceEqual(wire))
            {
                throw Unlike(table, row, made, 4);
            }

            ReadOnlySpan<byte> rest = wire;
            if (!new FrameReader().TryRead(ref rest, out Frame frame) || frame.Type != type || frame.Sequence != sequence || !frame.Payload.SequenceEqual(payload))
            {
                throw new InvalidDataException($"{Place(table, row)}: is not read back as it was");
            }
        }

        return Count(table);
    }

    private static SFloat? Special(string word) => word switch
    {
        "nan" => SFloat.NotANumber,
        "nres" => SFloat.NotAtThisResolution,
        "+inf" => SFloat.PositiveInfinity,
        "-inf" => SFloat.NegativeInfinity,
        "reserved" => new SFloat(0x0801),
        _ => null,
    };

    // Half of 10^exponent, in thousandths.
    private static decimal HalfAStep(int exponent)
    {
        decimal step = 500;
        for (int e = exponent; e > 0; e--)
        {
            step *= 10;
        }

        for (int e = exponent; e < 0; e++)
        {
            step /= 10;
        }

        return step;
    }

    private static string Count(ExampleTable table) => $"{table.Rows.Count} examples";

    private static InvalidDataException Unlike(ExampleTable table, int row, byte[] made, int field) =>
        new($"{Place(table, row)}: gives {Convert.ToHexString(made)} instead of {table.Rows[row][field].Replace(" ", "", StringComparison.Ordinal)}");

    private static string Place(ExampleTable table, int row) =>
        string.Create(CultureInfo.InvariantCulture, $"{Path.GetFileName(table.File)}, line {row + 2}, {table.Rows[row][Name]}");
}
