// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>What the clock of a channel's device adds to the declared delay; no detector sees it.</summary>
/// <remarks>
/// Nominal device time = <see cref="ChannelFormat.DeclaredDelayNs"/> + <see cref="OffsetNs"/> + (1 + <see cref="Ppm"/> / 10⁶) × body time.
/// </remarks>
/// <param name="Channel">The channel.</param>
/// <param name="OffsetNs">What the clock shows at body time 0, less what the maker declares [ns].</param>
/// <param name="Ppm">How much too fast it runs [parts per million].</param>
public readonly record struct ChannelClock(ChannelName Channel, long OffsetNs, double Ppm)
{
    /// <summary>How much later than at its body time, and than declared, the device shows something [ns].</summary>
    /// <param name="bodyNs">Body time [ns].</param>
    public long LateNs(long bodyNs) => OffsetNs + (long)Math.Round(bodyNs * (Ppm * 1e-6));
}
