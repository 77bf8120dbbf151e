// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames.Payloads;

/// <summary>Board: a line of its log.</summary>
/// <param name="Level">How bad it is.</param>
/// <param name="Text">The line.</param>
public readonly record struct LogPayload(LogLevel Level, string Text)
{
    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>log</c> frame.</param>
    /// <param name="log">What it says.</param>
    /// <returns>Whether it is one, of a level that is defined.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, out LogPayload log)
    {
        bool fits = payload.Length >= 1 && payload[0] <= (byte)LogLevel.Fault;
        log = fits ? new LogPayload((LogLevel)payload[0], PayloadText.Read(payload[1..])) : default;
        return fits;
    }

    /// <summary>Writes the payload; text that does not fit is cut.</summary>
    /// <param name="payload">Receives it; at least 1 byte.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> payload)
    {
        payload[0] = (byte)Level;
        return 1 + PayloadText.Write(Text, payload[1..Math.Min(payload.Length, FrameLimits.MaximumPayload)]);
    }
}

/// <summary>How bad a line of a board's log is.</summary>
public enum LogLevel : byte
{
    /// <summary>Good to know.</summary>
    Information = 0,

    /// <summary>Something is odd.</summary>
    Warning = 1,

    /// <summary>Something is wrong.</summary>
    Fault = 2,
}
