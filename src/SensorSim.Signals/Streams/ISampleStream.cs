// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>The only thing that crosses from making signals to using them: coded samples, read forward in blocks.</summary>
/// <remarks>
/// Any sequence of cuts gives the same samples. Not safe for use by several threads at once; independent streams are.
/// </remarks>
public interface ISampleStream
{
    /// <summary>Channels and clock.</summary>
    StreamFormat Format { get; }

    /// <summary>First tick not yet read.</summary>
    long PositionTick { get; }

    /// <summary>First tick after the end; <see cref="long.MaxValue"/> when the stream is endless.</summary>
    long EndTick { get; }

    /// <summary>Reads from <see cref="PositionTick"/> up to, not including, a tick.</summary>
    /// <param name="block">Receives the samples; made for the same format.</param>
    /// <param name="untilTick">First tick after the stretch; at or after the position, at most <see cref="EndTick"/>.</param>
    void Read(SampleBlock block, long untilTick);
}
