// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Randomness;

/// <summary>Philox4x32-10: a keyed function from a 128-bit counter to 128 random bits.</summary>
/// <remarks>Source: Salmon, Moraes, Dror, Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC'11, 2011.</remarks>
public static class Philox
{
    internal const ulong Multiplier0 = 0xD2511F53;
    internal const ulong Multiplier1 = 0xCD9E8D57;
    internal const uint KeyStep0 = 0x9E3779B9;
    internal const uint KeyStep1 = 0xBB67AE85;
    internal const int Rounds = 10;

    /// <summary>Ten rounds of Philox4x32.</summary>
    /// <param name="counterLow">Counter words 0 (low half) and 1 (high half).</param>
    /// <param name="counterHigh">Counter words 2 (low half) and 3 (high half).</param>
    /// <param name="key">Key words 0 (low half) and 1 (high half).</param>
    /// <param name="low">Receives output words 0 (low half) and 1 (high half).</param>
    /// <param name="high">Receives output words 2 (low half) and 3 (high half).</param>
    public static void Draw(ulong counterLow, ulong counterHigh, ulong key, out ulong low, out ulong high)
    {
        unchecked
        {
            uint c0 = (uint)counterLow;
            uint c1 = (uint)(counterLow >> 32);
            uint c2 = (uint)counterHigh;
            uint c3 = (uint)(counterHigh >> 32);
            uint k0 = (uint)key;
            uint k1 = (uint)(key >> 32);
            for (int round = 0; round < Rounds; round++)
            {
                ulong product0 = Multiplier0 * c0;
                ulong product1 = Multiplier1 * c2;
                c0 = (uint)(product1 >> 32) ^ c1 ^ k0;
                c1 = (uint)product1;
                c2 = (uint)(product0 >> 32) ^ c3 ^ k1;
                c3 = (uint)product0;
                k0 += KeyStep0;
                k1 += KeyStep1;
            }

            low = c0 | ((ulong)c1 << 32);
            high = c2 | ((ulong)c3 << 32);
        }
    }
}
