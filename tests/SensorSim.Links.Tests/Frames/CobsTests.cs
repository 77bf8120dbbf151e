// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;

namespace SensorSim.Links.Tests.Frames;

/// <summary>COBS by the rules of Cheshire and Baker 1999; the header of a packet is their example, from memory.</summary>
public sealed class CobsTests
{
    [TestCase("4500002C4C79000040064F37", "024501042C4C79010540064F37")]
    [TestCase("", "01")]
    [TestCase("00", "0101")]
    [TestCase("0000", "010101")]
    [TestCase("001100", "01021101")]
    [TestCase("11220033", "0311220233")]
    [TestCase("11223344", "0511223344")]
    [TestCase("11000000", "0211010101")]
    public void Encode_KnownBytes_AreThoseOfTheRules(string plain, string encoded)
        => Holds(Convert.FromHexString(plain), Convert.FromHexString(encoded));

    [Test]
    public void Encode_GroupsThatAreJustFull_ImplyNoZero()
    {
        Holds(Bytes(1, 254), [255, .. Bytes(1, 254)]);
        Holds(Bytes(0, 255), [1, 255, .. Bytes(1, 254)]);
        Holds(Bytes(1, 255), [255, .. Bytes(1, 254), 2, 255]);
        Holds([.. Bytes(2, 254), 0], [255, .. Bytes(2, 254), 1, 1]);
        Holds([.. Bytes(3, 253), 0, 1], [254, .. Bytes(3, 253), 2, 1]);
    }

    [Test]
    public void TryDecode_ZeroInsideOrGroupBeyondTheEnd_Refuses()
    {
        foreach (string bad in new[] { "", "00", "03", "0311", "021100", "0302000111", "0111FF" })
        {
            Assert.That(Cobs.TryDecode(Convert.FromHexString(bad), new byte[64], out _), Is.False, bad);
        }

        Assert.That(Cobs.TryDecode([5, 1, 2, 3, 4], new byte[3], out _), Is.False, "no room");
        Assert.That(Cobs.TryDecode([1, 1, 1, 1], new byte[2], out _), Is.False, "no room for zeros");
        Assert.That(() => Cobs.Encode(new byte[4], new byte[4]), Throws.ArgumentException);
    }

    [Test]
    public void EncodeDecode_EveryLengthThreeFillings_RoundTripsWithTheStatedOverhead()
    {
        for (int length = 0; length <= 600; length++)
        {
            foreach (byte[] plain in new[] { new byte[length], Bytes(1, length), [.. Bytes(1, length).Select(b => (byte)(b % 3 == 0 ? 0 : 7))] })
            {
                var encoded = new byte[Cobs.MaximumEncoded(length)];
                int count = Cobs.Encode(plain, encoded);
                Assert.That(encoded.AsSpan(0, count).Contains((byte)0), Is.False);
                Assert.That(count, Is.InRange(length + 1, length + Math.Max(1, (length + 253) / 254)));

                // In place, as the reader does it.
                Assert.That(Cobs.TryDecode(encoded.AsSpan(0, count), encoded, out int back), Is.True);
                Assert.That(encoded.AsSpan(0, back).SequenceEqual(plain), Is.True, $"{length}");
            }
        }
    }

    private static void Holds(byte[] plain, byte[] encoded)
    {
        var bytes = new byte[Cobs.MaximumEncoded(plain.Length)];
        int count = Cobs.Encode(plain, bytes);
        Assert.That(Convert.ToHexString(bytes, 0, count), Is.EqualTo(Convert.ToHexString(encoded)));
        var back = new byte[plain.Length];
        Assert.That(Cobs.TryDecode(encoded, back, out int length), Is.True);
        Assert.That(back[..length], Is.EqualTo(plain));
    }

    private static byte[] Bytes(int first, int count) => [.. Enumerable.Range(first, count).Select(i => (byte)i)];
}
