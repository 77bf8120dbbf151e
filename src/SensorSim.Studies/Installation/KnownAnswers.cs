// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using SensorSim.Signals.Randomness;

namespace SensorSim.Studies.Installation;

/// <summary>Published answers of what everything else stands on: the keyed draws, and the sums by which files are compared.</summary>
internal static class KnownAnswers
{
    // Random123, file kat_vectors, Philox4x32-10: counter and key of the digits of pi; Salmon, Moraes, Dror, Shaw, SC'11, 2011.
    private static readonly (ulong CounterLow, ulong CounterHigh, ulong Key, ulong Low, ulong High)[] s_draws =
    [
        (0, 0, 0, 0xE169C58D_6627E8D5, 0x9B00DBD8_BC57AC4C),
        (ulong.MaxValue, ulong.MaxValue, ulong.MaxValue, 0x41C83B0E_408F276D, 0x6D5451FD_A20BC7C6),
        (0x85A308D3_243F6A88, 0x03707344_13198A2E, 0x299F31D0_A4093822, 0x94FDCCEB_D16CFE09, 0x24126EA1_5001E420),
    ];

    // FIPS 180-4, examples of the standard: one block, and two blocks.
    private static readonly (string Text, string Sum)[] s_sums =
    [
        ("abc", "BA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD"),
        ("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248D6A61D20638B8E5C026930C3E6039A33CE45964FF2167F6ECEDD419DB06C1"),
    ];

    /// <summary>Draws.</summary>
    public static CheckFinding Draws()
    {
        foreach ((ulong counterLow, ulong counterHigh, ulong key, ulong expectedLow, ulong expectedHigh) in s_draws)
        {
            Philox.Draw(counterLow, counterHigh, key, out ulong low, out ulong high);
            if (low != expectedLow || high != expectedHigh)
            {
                return CheckFinding.Failed(string.Create(
                    CultureInfo.InvariantCulture,
                    $"key {key:X16}: {high:X16} {low:X16} instead of {expectedHigh:X16} {expectedLow:X16}"));
            }
        }

        return CheckFinding.Passed($"{s_draws.Length} published draws");
    }

    /// <summary>Sums.</summary>
    public static CheckFinding Sums()
    {
        foreach ((string text, string expected) in s_sums)
        {
            string sum = Convert.ToHexString(SHA256.HashData(Encoding.ASCII.GetBytes(text)));
            if (sum != expected)
            {
                return CheckFinding.Failed($"SHA-256 of {text} is {sum} instead of {expected}");
            }
        }

        return CheckFinding.Passed($"{s_sums.Length} published sums");
    }
}
