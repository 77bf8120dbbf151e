// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>
/// The codes of a minute with everything on, pinned: they are the same on every system, and a change that alters one of them must be
/// meant. Then raise <c>Scenario.GeneratorVersion</c> and pin anew.
/// </summary>
public sealed class CodesFingerprintTests
{
    private static readonly Recording s_minute = Recording.Of(Settings.Everything(), 60, seed: 20260101);

    [TestCase(ChannelName.Ecg, 15000, "bf847023df67196c")]
    [TestCase(ChannelName.Red, 6000, "320504358fb49352")]
    [TestCase(ChannelName.Infrared, 6000, "7844fc5e4f407da6")]
    [TestCase(ChannelName.Dark, 6000, "55b6cb170e98a48d")]
    [TestCase(ChannelName.AccelX, 3000, "a2a78865727c1e71")]
    [TestCase(ChannelName.AccelY, 3000, "f2b67db0b6d4214f")]
    [TestCase(ChannelName.AccelZ, 3000, "8ae0be3aab15ff23")]
    public void Codes_OfAMinuteWithEverythingOn_AreThePinnedOnes(ChannelName name, int count, string fingerprint)
    {
        int[] codes = s_minute.Codes(name);
        Assert.That(codes, Has.Length.EqualTo(count));
        Assert.That(Fingerprint(codes, s_minute.Status(name)), Is.EqualTo(fingerprint));
    }

    // FNV-1a of "foobar", 64 bits: 85944171f73967e8 (Fowler, Noll, Vo: draft-eastlake-fnv, test vectors).
    [Test]
    public void Fingerprint_OfTheTestVector_IsAsPublished()
    {
        ulong hash = Start;
        foreach (byte b in "foobar"u8)
        {
            hash = Step(hash, b);
        }

        Assert.That(hash, Is.EqualTo(0x85944171f73967e8UL));
    }

    private const ulong Start = 0xCBF29CE484222325;

    private static ulong Step(ulong hash, uint octet) => unchecked((hash ^ octet) * 0x100000001B3);

    // Four bytes of the code, two of the status word, lowest first.
    private static string Fingerprint(int[] codes, ushort[] status)
    {
        ulong hash = Start;
        for (int i = 0; i < codes.Length; i++)
        {
            for (int shift = 0; shift < 32; shift += 8)
            {
                hash = Step(hash, (unchecked((uint)codes[i]) >> shift) & 0xFF);
            }

            hash = Step(hash, (uint)status[i] & 0xFF);
            hash = Step(hash, (uint)status[i] >> 8);
        }

        return hash.ToString("x16", null);
    }
}
