// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames.Payloads;

/// <summary>Codes of 4 to 24 bits one behind the other, the first in the lowest bits of the first byte.</summary>
internal static class BitPacking
{
    /// <summary>Bytes that a number of codes takes.</summary>
    public static int Bytes(int count, int bits) => ((count * bits) + 7) / 8;

    /// <summary>Packs; unused bits are 0.</summary>
    public static void Pack(ReadOnlySpan<int> codes, int bits, Span<byte> bytes)
    {
        // At most 7 bits wait when a code of 24 comes: 31 fit.
        uint mask = (1u << bits) - 1;
        uint waiting = 0;
        int filled = 0;
        int at = 0;
        foreach (int code in codes)
        {
            waiting |= ((uint)code & mask) << filled;
            for (filled += bits; filled >= 8; filled -= 8)
            {
                bytes[at++] = (byte)waiting;
                waiting >>= 8;
            }
        }

        if (filled > 0)
        {
            bytes[at] = (byte)waiting;
        }
    }

    /// <summary>Unpacks.</summary>
    public static void Unpack(ReadOnlySpan<byte> bytes, int bits, bool isSigned, Span<int> codes)
    {
        int above = 32 - bits;
        uint waiting = 0;
        int filled = 0;
        int at = 0;
        for (int i = 0; i < codes.Length; i++)
        {
            for (; filled < bits; filled += 8)
            {
                waiting |= (uint)bytes[at++] << filled;
            }

            uint raw = waiting << above;
            codes[i] = isSigned ? (int)raw >> above : (int)(raw >> above);
            waiting >>= bits;
            filled -= bits;
        }
    }
}
