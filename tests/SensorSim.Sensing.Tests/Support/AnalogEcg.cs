// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>The ECG as it stands at the converter, without rounding [mV].</summary>
internal static class AnalogEcg
{
    public static double[] Of(KeyValues values, double seconds, ulong seed = 7, long blockTicks = 0)
    {
        var stream = new SensorStream(values, seed, seconds);
        return OfRest(stream, blockTicks == 0 ? 10 * stream.Format.Clock.TicksPerSecond : blockTicks);
    }

    public static double[] OfRest(SensorStream stream, long blockTicks)
    {
        var samples = new List<double>();
        stream.AnalogTap = (channel, _, values) => samples.AddRange(channel == ChannelName.Ecg ? values : []);
        var block = new SampleBlock(stream.Format, blockTicks);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + blockTicks));
            while (stream.Truth.TryTake(out _))
            {
            }
        }

        return [.. samples];
    }

    /// <summary>What values add to others.</summary>
    public static double[] Added(KeyValues with, KeyValues without, double seconds, ulong seed = 7) =>
        Measure.Less(Of(with, seconds, seed), Of(without, seconds, seed));
}
