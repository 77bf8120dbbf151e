// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Randomness;

/// <summary>Known answers of Philox4x32-10.</summary>
/// <remarks>
/// Source: the known-answer file kat_vectors of the Random123 library by the authors of Salmon, Moraes, Dror, Shaw,
/// "Parallel random numbers: as easy as 1, 2, 3", SC'11, 2011.
/// </remarks>
public sealed class PhiloxTests
{
    [TestCase(0ul, 0ul, 0ul, 0xE169C58D_6627E8D5ul, 0x9B00DBD8_BC57AC4Cul)]
    [TestCase(ulong.MaxValue, ulong.MaxValue, ulong.MaxValue, 0x41C83B0E_408F276Dul, 0x6D5451FD_A20BC7C6ul)]
    [TestCase(0x85A308D3_243F6A88ul, 0x03707344_13198A2Eul, 0x299F31D0_A4093822ul, 0x94FDCCEB_D16CFE09ul, 0x24126EA1_5001E420ul)]
    public void Draw_PublishedCounters_GivesPublishedWords(ulong counterLow, ulong counterHigh, ulong key, ulong expectedLow, ulong expectedHigh)
    {
        Philox.Draw(counterLow, counterHigh, key, out ulong low, out ulong high);
        Assert.That((low, high), Is.EqualTo((expectedLow, expectedHigh)));
    }
}
