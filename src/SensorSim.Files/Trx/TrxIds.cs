// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using System.Text;

namespace SensorSim.Files.Trx;

/// <summary>Identifiers of a TRX file that depend on names alone.</summary>
internal static class TrxIds
{
    private const int Length = 16;
    private const int Version = 8;

    /// <summary>The identifier of a name: the begin of its SHA-256, with version (8, made otherwise) and variant of RFC 9562.</summary>
    /// <param name="name">The name; what it names should be part of it.</param>
    public static Guid Of(string name)
    {
        byte[] bytes = SHA256.HashData(Encoding.UTF8.GetBytes(name))[..Length];
        bytes[6] = (byte)((Version << 4) | (bytes[6] & 0x0F));
        bytes[8] = (byte)(0x80 | (bytes[8] & 0x3F));
        return new Guid(bytes, bigEndian: true);
    }
}
