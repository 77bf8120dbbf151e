// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Signals.Identity;

namespace SensorSim.Signals.Tests.Identity;

/// <summary>Sums as text: the examples of FIPS 180-4 (one block, two blocks), whichever way the bytes come.</summary>
[TestFixture]
public sealed class Sha256SumTests
{
    [TestCase("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [TestCase("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1")]
    public void Of_PublishedExamples_IsTheirSum(string text, string expected)
    {
        byte[] bytes = Encoding.ASCII.GetBytes(text);
        string path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, bytes);
            Assert.That(Sha256Sum.OfFile(path), Is.EqualTo(expected));
        }
        finally
        {
            File.Delete(path);
        }

        using var stream = new MemoryStream(bytes);
        Assert.That(new[] { Sha256Sum.Of(bytes), Sha256Sum.Of(text), Sha256Sum.Of(stream) }, Is.All.EqualTo(expected));
    }

    [Test]
    public void Of_Text_IsItsUtf8() => Assert.That(Sha256Sum.Of("é"), Is.EqualTo(Sha256Sum.Of([0xC3, 0xA9])));
}
