// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Globalization;
using System.IO.Hashing;
using SensorSim.Links.Bluetooth;
using SensorSim.Links.Frames;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Examples;

/// <summary>
/// The codec examples of the shipped set: right by implementations that share nothing with the product (System.IO.Hashing for CRC-32C, groups between
/// zeros for COBS, decimal arithmetic for SFLOAT), and given by the product.
/// </summary>
[TestFixture]
public sealed class ShippedCodecTests
{
    private static IEnumerable<string[]> Checks() => Rows("crc32c.csv");

    private static IEnumerable<string[]> Framed() => Rows("cobs.csv");

    private static IEnumerable<string[]> Damaged() => Rows("cobs-damaged.csv");

    private static IEnumerable<string[]> Numbers() => Rows("sfloat.csv");

    private static IEnumerable<string[]> Wires() => Rows("frames.csv");

    [TestCaseSource(nameof(Checks))]
    public void Crc_Example_IsThatOfBothImplementations(string name, string input, string output, string source)
    {
        uint expected = BinaryPrimitives.ReadUInt32LittleEndian(Hex(output));

        Assert.That(Crc32.HashToUInt32(Crc32ParameterSet.Crc32C, Hex(input)), Is.EqualTo(expected), name + source);
        Assert.That(Crc32C.Of(Hex(input)), Is.EqualTo(expected), name);
    }

    [TestCaseSource(nameof(Framed))]
    public void Cobs_Example_IsThatOfBothImplementations(string name, string input, string output, string source)
    {
        byte[] plain = Hex(input);
        byte[] room = new byte[Cobs.MaximumEncoded(plain.Length)];
        byte[] back = new byte[room.Length];

        Assert.That(ByGroups(plain), Is.EqualTo(Hex(output)), name + source);
        Assert.That(room[..Cobs.Encode(plain, room)], Is.EqualTo(Hex(output)), name);
        Assert.That(Cobs.TryDecode(Hex(output), back, out int length), name);
        Assert.That(back[..length], Is.EqualTo(plain), name);
    }

    [TestCaseSource(nameof(Damaged))]
    public void Cobs_DamagedExample_IsRefused(string name, string input, string source) =>
        Assert.That(Cobs.TryDecode(Hex(input), new byte[64], out _), Is.False, name + source);

    [TestCaseSource(nameof(Numbers))]
    public void SFloat_Example_IsThatOfBothImplementations(string name, string value, string exponent, string output, string source)
    {
        ushort expected = BinaryPrimitives.ReadUInt16LittleEndian(Hex(output));
        if (exponent.Length == 0)
        {
            // IEEE 11073-20601: special mantissas at exponent 0.
            ushort special = value switch { "nan" => 0x07FF, "nres" => 0x0800, "+inf" => 0x07FE, "-inf" => 0x0802, "reserved" => 0x0801, _ => 0 };

            Assert.That((expected, new SFloat(expected).IsSpecial), Is.EqualTo((special, true)), name + source);
            return;
        }

        decimal exact = decimal.Parse(value, CultureInfo.InvariantCulture);
        int power = int.Parse(exponent, CultureInfo.InvariantCulture);

        Assert.That(ByDecimals(exact, power), Is.EqualTo(expected), name + source);
        Assert.That(SFloat.FromMilli((int)(exact * 1000), power).Raw, Is.EqualTo(expected), name);
    }

    [TestCaseSource(nameof(Wires))]
    public void Frame_Example_IsMadeAndRead(string name, string type, string sequence, string payload, string wire, string source)
    {
        byte[] room = new byte[FrameLimits.WireBuffer];
        uint number = uint.Parse(sequence, CultureInfo.InvariantCulture);
        var writer = new FrameWriter(number);

        Assert.That(room[..writer.Write((FrameType)Hex(type)[0], Hex(payload), room)], Is.EqualTo(Hex(wire)), name + source);
        ReadOnlySpan<byte> rest = Hex(wire);
        Assert.That(new FrameReader().TryRead(ref rest, out Frame frame), name);
        Assert.That((frame.Type, frame.Sequence, frame.Payload.ToArray()), Is.EqualTo(((FrameType)Hex(type)[0], number, Hex(payload))), name);
    }

    // Cheshire and Baker 1999: what lies between zeros, cut after 254 bytes; the cut implies no zero, and no group is opened after one for nothing.
    private static byte[] ByGroups(byte[] plain)
    {
        var groups = new List<byte[]>();
        var group = new List<byte>();
        foreach (byte one in plain)
        {
            if (one == 0)
            {
                groups.Add([.. group]);
                group.Clear();
            }
            else
            {
                group.Add(one);
            }
        }

        groups.Add([.. group]);
        var made = new List<byte>();
        for (int g = 0; g < groups.Count; g++)
        {
            byte[][] parts = [.. groups[g].Chunk(254)];
            foreach (byte[] part in parts)
            {
                made.Add((byte)(part.Length + 1));
                made.AddRange(part);
            }

            bool endsFull = parts.Length > 0 && parts[^1].Length == 254;
            if (parts.Length == 0 || (endsFull && g < groups.Count - 1))
            {
                made.Add(1);
            }
        }

        return [.. made];
    }

    private static ushort ByDecimals(decimal value, int exponent)
    {
        decimal step = 1;
        for (int e = 0; e < Math.Abs(exponent); e++)
        {
            step = exponent < 0 ? step / 10 : step * 10;
        }

        decimal mantissa = Math.Round(value / step, MidpointRounding.AwayFromZero);
        return Math.Abs(mantissa) > 2045 ? ByDecimals(value, exponent + 1) : (ushort)(((exponent & 15) << 12) | ((int)mantissa & 0xFFF));
    }

    private static byte[] Hex(string text) => Convert.FromHexString(text.Replace(" ", "", StringComparison.Ordinal));

    private static IEnumerable<string[]> Rows(string file) =>
        File.ReadLines(Path.Combine(CCompiler.Root, "waveforms", "vectors", "codecs", file)).Skip(1).Select(line => line.Split(','));
}
