// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Tests.Numerics;

/// <summary>FNV-1a, 64 bits, over the bytes of doubles, lowest first: a fingerprint that needs no library of the system.</summary>
/// <remarks>SHA-256 would need OpenSSL, which an emulated arm64 run does not have; against an accident 64 bits are enough.</remarks>
internal struct BitsHash()
{
    private ulong _hash = 0xCBF29CE484222325;

    /// <summary>Sixteen hexadecimal digits.</summary>
    public override readonly string ToString() => _hash.ToString("x16", null);

    /// <summary>Takes a number in.</summary>
    public void Add(double value)
    {
        ulong bits = BitConverter.DoubleToUInt64Bits(value);
        for (int shift = 0; shift < 64; shift += 8)
        {
            _hash = unchecked((_hash ^ ((bits >> shift) & 0xFF)) * 0x100000001B3);
        }
    }
}
