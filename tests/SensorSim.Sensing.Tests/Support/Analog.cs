// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>Analog values of one channel as they stand at the converter.</summary>
internal static class Analog
{
    /// <summary>Records a channel.</summary>
    public static double[] Of(KeyValues values, double seconds, ChannelName channel, ulong seed = 7)
    {
        var stream = new SensorStream(values, seed, seconds);
        var samples = new List<double>();
        stream.AnalogTap = (name, first, analog) =>
        {
            if (name == channel)
            {
                Assert.That(first, Is.EqualTo(samples.Count));
                samples.AddRange(analog);
            }
        };
        Recording.OfRest(stream, 10 * stream.Format.Clock.TicksPerSecond);
        return [.. samples];
    }
}
