// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Numerics;

namespace SensorSim.Links.Frames;

/// <summary>The check of a frame: CRC-32C (Castagnoli), as of RFC 3720: reflected polynomial 82F63B78, begins with and is inverted by all ones.</summary>
public static class Crc32C
{
    /// <summary>Check of some bytes; that of the ASCII digits 1 to 9 is E3069283.</summary>
    /// <param name="bytes">Any number of bytes.</param>
    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        uint rest = uint.MaxValue;
        while (bytes.Length >= sizeof(ulong))
        {
            rest = BitOperations.Crc32C(rest, BinaryPrimitives.ReadUInt64LittleEndian(bytes));
            bytes = bytes[sizeof(ulong)..];
        }

        foreach (byte one in bytes)
        {
            rest = BitOperations.Crc32C(rest, one);
        }

        return ~rest;
    }
}
