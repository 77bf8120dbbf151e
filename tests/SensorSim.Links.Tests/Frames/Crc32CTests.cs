// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;

namespace SensorSim.Links.Tests.Frames;

/// <summary>CRC-32C against the catalogue of parametrised CRCs (check value) and RFC 3720, appendix B.4.</summary>
public sealed class Crc32CTests
{
    [Test]
    public void Of_NineDigits_IsTheCheckValue()
        => Assert.That(Crc32C.Of("123456789"u8), Is.EqualTo(0xE3069283u));

    [Test]
    public void Of_ExamplesOfTheStandard_AreItsValues()
    {
        var zeros = new byte[32];
        byte[] ones = [.. Enumerable.Repeat((byte)255, 32)];
        byte[] up = [.. Enumerable.Range(0, 32).Select(i => (byte)i)];
        byte[] down = [.. up.Reverse()];
        Assert.That(Crc32C.Of(zeros), Is.EqualTo(0x8A9136AAu));
        Assert.That(Crc32C.Of(ones), Is.EqualTo(0x62A8AB43u));
        Assert.That(Crc32C.Of(up), Is.EqualTo(0x46DD794Eu));
        Assert.That(Crc32C.Of(down), Is.EqualTo(0x113FDB5Cu));
    }

    [Test]
    public void Of_NothingOrOddLengths_IsThatOfTheBytesOneByOne()
    {
        byte[] bytes = [.. Enumerable.Range(0, 256).Select(i => (byte)i)];
        Assert.That(Crc32C.Of([]), Is.Zero);
        Assert.That(Crc32C.Of(new byte[4]), Is.EqualTo(0x48674BC7u));
        Assert.That(Crc32C.Of(bytes), Is.EqualTo(0x9C44184Bu));
        for (int length = 0; length <= bytes.Length; length++)
        {
            Assert.That(Crc32C.Of(bytes.AsSpan(0, length)), Is.EqualTo(BitByBit(bytes.AsSpan(0, length))));
        }
    }

    // The definition: one bit after the other.
    private static uint BitByBit(ReadOnlySpan<byte> bytes)
    {
        uint rest = uint.MaxValue;
        foreach (byte one in bytes)
        {
            rest ^= one;
            for (int bit = 0; bit < 8; bit++)
            {
                rest = (rest & 1) != 0 ? (rest >> 1) ^ 0x82F63B78u : rest >> 1;
            }
        }

        return ~rest;
    }
}
