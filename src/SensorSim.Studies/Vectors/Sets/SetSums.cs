// SPDX-License-Identifier: MIT
using System.Security.Cryptography;

namespace SensorSim.Studies.Vectors.Sets;

/// <summary>Sums as text.</summary>
internal static class SetSums
{
    /// <summary>SHA-256, 64 lower-case hexadecimal digits.</summary>
    public static string Of(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
