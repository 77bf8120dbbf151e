// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing;

/// <summary>How much of a stream is made at once.</summary>
/// <remarks>
/// Long enough that the code of the many sources is fetched seldom and the draws of 256 samples and the latches of 64 fit into it whole
/// at 50 and 100 Hz; short enough that what channels share stays in the second-level cache. A speed, nothing else: no stretch changes a bit.
/// </remarks>
internal static class Stretch
{
    private const double LongestSeconds = 2.56;
    private const double ShortestSeconds = 1;
    private const double ManySamples = 2048;

    /// <summary>Length of a stretch [ticks]: 2.56 s, less where the fastest channel has more than 2048 samples in it, but no less than a second.</summary>
    public static long Ticks(StreamFormat format) =>
        Math.Max(1, (long)(format.Clock.TicksPerSecond * MostSeconds(format.Channels.Max(c => c.RateHz))));

    /// <summary>Longest stretch of any stream that a channel is in [s].</summary>
    /// <param name="rateHz">Nominal rate of the channel.</param>
    public static double MostSeconds(double rateHz) => Math.Clamp(ManySamples / rateHz, ShortestSeconds, LongestSeconds);

    /// <summary>Most samples of a channel in a stretch of any stream.</summary>
    /// <param name="rateHz">Nominal rate of the channel.</param>
    public static int MostSamples(double rateHz) => (int)Math.Ceiling(rateHz * MostSeconds(rateHz)) + 1;
}
