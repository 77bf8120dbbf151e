// SPDX-License-Identifier: MIT
namespace SensorSim.Links;

/// <summary>A line to a board or a program: bytes out, bytes in, in order. Nothing is known here of frames.</summary>
/// <remarks>One thread may read while another writes; no more than one of each. Reading and writing allocate nothing.</remarks>
public interface ILink : IDisposable
{
    /// <summary>What and where, for people: <c>serial port /dev/ttyUSB0 at 921600 baud</c>.</summary>
    string Name { get; }

    /// <summary>What the line carries each way [bytes/s]; null when it sets no limit of its own.</summary>
    long? BytesPerSecond { get; }

    /// <summary>Reads what has come, at most as much as fits.</summary>
    /// <param name="buffer">Receives the bytes.</param>
    /// <param name="atMost">How long to wait for the first byte; zero looks only.</param>
    /// <returns>Bytes read; 0 when none came in that time.</returns>
    /// <exception cref="LinkLostException">The other end is gone, or the link was closed.</exception>
    int Read(Span<byte> buffer, TimeSpan atMost);

    /// <summary>Writes all bytes.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <exception cref="LinkLostException">The other end is gone or takes nothing any more; from here on the link is dead.</exception>
    void Write(ReadOnlySpan<byte> bytes);
}
