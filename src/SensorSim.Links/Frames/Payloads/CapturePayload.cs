// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames.Payloads;

/// <summary>Host: wants the board's own samples. Says nothing yet: four bytes 0.</summary>
public static class CapturePayload
{
    private const int Bytes = 4;

    /// <summary>Reads a payload; there is nothing in it.</summary>
    /// <param name="payload">The payload of a <c>capture</c> frame.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload) => payload.Length == Bytes;

    /// <summary>Writes the payload.</summary>
    /// <param name="payload">Receives it; at least 4 bytes.</param>
    /// <returns>Bytes written.</returns>
    public static int Write(Span<byte> payload)
    {
        payload[..Bytes].Clear();
        return Bytes;
    }
}
