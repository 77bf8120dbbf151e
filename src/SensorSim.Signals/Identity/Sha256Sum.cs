// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using System.Text;

namespace SensorSim.Signals.Identity;

/// <summary>The sum by which files, texts and detectors are told apart: SHA-256 as 64 lower-case hexadecimal digits.</summary>
public static class Sha256Sum
{
    /// <summary>Of bytes.</summary>
    /// <param name="bytes">The bytes.</param>
    public static string Of(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    /// <summary>Of a text, as UTF-8 has it.</summary>
    /// <param name="text">The text.</param>
    public static string Of(string text) => Of(Encoding.UTF8.GetBytes(text));

    /// <summary>Of what a stream holds from here to its end.</summary>
    /// <param name="stream">The stream; not closed.</param>
    public static string Of(Stream stream) => Convert.ToHexStringLower(SHA256.HashData(stream));

    /// <summary>Of a file.</summary>
    /// <param name="path">Its path.</param>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static string OfFile(string path)
    {
        using FileStream file = File.OpenRead(path);
        return Of(file);
    }
}
