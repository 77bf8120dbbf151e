// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>Everything a consumer may know about one channel of a stream.</summary>
/// <remarks>
/// Sample k of a channel is taken at tick k × (ticks per second / <see cref="RateHz"/>). A code stands for the physical value
/// (code − <see cref="ZeroCode"/>) × <see cref="UnitPerCode"/> × <see cref="Polarity"/>.
/// </remarks>
public sealed record ChannelFormat
{
    /// <summary>What the channel carries.</summary>
    public required ChannelName Name { get; init; }

    /// <summary>Name of the device that samples it; letters, digits and underscores.</summary>
    public required string Device { get; init; }

    /// <summary>Nominal sampling rate [Hz], at least 1.</summary>
    public required int RateHz { get; init; }

    /// <summary>Bits of the converter, 4 to 24.</summary>
    public required int Bits { get; init; }

    /// <summary>Whether codes run from −2^(bits−1) to 2^(bits−1)−1 (true) or from 0 to 2^bits−1 (false).</summary>
    public required bool IsSigned { get; init; }

    /// <summary>Physical value of one code step [unit of the channel per code], above 0.</summary>
    public required double UnitPerCode { get; init; }

    /// <summary>The code that stands for physical zero.</summary>
    public int ZeroCode { get; init; }

    /// <summary>+1 when a rising physical value raises the code, −1 when it lowers it.</summary>
    public int Polarity { get; init; } = 1;

    /// <summary>
    /// Declared delay of the chain [ns]: a body event at time t shows at device time t + delay. Negative when a sampling
    /// slot lies after the nominal instant.
    /// </summary>
    public long DeclaredDelayNs { get; init; }

    /// <summary>Lowest code.</summary>
    public int MinimumCode => IsSigned ? -(1 << (Bits - 1)) : 0;

    /// <summary>Highest code.</summary>
    public int MaximumCode => IsSigned ? (1 << (Bits - 1)) - 1 : (1 << Bits) - 1;

    /// <summary>Physical unit: mV, nA or g.</summary>
    public string Unit => Name.Unit();

    /// <summary>The physical value a code stands for [<see cref="Unit"/>].</summary>
    /// <param name="code">Code within the converter's range.</param>
    public double Physical(int code) => ((double)code - ZeroCode) * UnitPerCode * Polarity;
}
