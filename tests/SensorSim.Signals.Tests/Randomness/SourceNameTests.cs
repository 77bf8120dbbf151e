// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Randomness;

/// <summary>Source: test vectors of FNV-1a, 64 bits, in IETF draft-eastlake-fnv (values from memory).</summary>
public sealed class SourceNameTests
{
    [TestCase("", 0xCBF29CE484222325ul)]
    [TestCase("a", 0xAF63DC4C8601EC8Cul)]
    [TestCase("foobar", 0x85944171F73967E8ul)]
    public void Hash_PublishedStrings_GivesPublishedNumbers(string name, ulong expected) => Assert.That(SourceName.Hash(name), Is.EqualTo(expected));

    [Test]
    public void Hash_TextBeyondAscii_UsesItsUtf8Bytes()
    {
        // Two bytes C3 A9, by the definition: hash = (hash xor byte) * prime.
        ulong expected = unchecked(((((0xCBF29CE484222325ul ^ 0xC3) * 0x100000001B3ul) ^ 0xA9)) * 0x100000001B3ul);
        Assert.That(SourceName.Hash("é"), Is.EqualTo(expected));
    }
}
