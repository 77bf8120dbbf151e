// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Text at the end of a payload: UTF-8 without a final zero.</summary>
internal static class PayloadText
{
    /// <summary>Reads; bytes that are no UTF-8 become U+FFFD.</summary>
    public static string Read(ReadOnlySpan<byte> bytes) => Encoding.UTF8.GetString(bytes);

    /// <summary>Writes what fits, no half characters.</summary>
    public static int Write(string? text, Span<byte> target)
    {
        Encoding.UTF8.GetEncoder().Convert(text, target, flush: true, out _, out int bytes, out _);
        return bytes;
    }
}
