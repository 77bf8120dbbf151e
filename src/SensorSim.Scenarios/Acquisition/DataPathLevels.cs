// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Devices;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>Levels of what the way to the receiver does to a channel.</summary>
internal static class DataPathLevels
{
    /// <summary>Levels of a channel, in the order of the file.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="channel">The channel.</param>
    public static IEnumerable<Level> Of(KeyValues values, ChannelName channel)
    {
        DataPathKeys keys = Device.Of(values, channel).IsSecond ? DataPathKeys.Second : DataPathKeys.First;
        Course loss = Fixed(keys.PacketLossPercent);
        Course delay = Fixed(keys.PacketDelayMs);
        Course wrap = Fixed(keys.StampWrapS);
        Course stalls = Fixed(keys.StallsPerMin);
        bool hasPackets = loss.BaseValue != 0 || delay.BaseValue != 0 || wrap.BaseValue != 0;
        yield return new Level("packet_ms", "ms", hasPackets ? Fixed(keys.PacketMs) : new Course(0));
        yield return new Level("packet_loss_percent", "%", loss);
        yield return new Level("loss_burst_packets", "packets", Fixed(keys.LossBurstPackets), loss);
        yield return new Level("packet_delay_ms", "ms", delay);
        yield return new Level("late_ms", "ms", Fixed(keys.LateMs), delay);
        yield return new Level("patience_ms", "ms", Fixed(keys.PatienceMs), delay);
        yield return new Level("stamp_wrap_s", "s", wrap);
        yield return new Level("stalls_per_min", "1/min", stalls);
        yield return new Level("stall_ms", "ms", Fixed(keys.StallMs), stalls);
        yield return new Level("fifo_samples", "samples", Fixed(keys.FifoSamples), stalls);
        yield return new Level("lost_samples_per_million", "1/million", Fixed(keys.LostSamplesPerMillion));
        yield return new Level("repeated_samples_per_million", "1/million", Fixed(keys.RepeatedSamplesPerMillion));

        Course Fixed(NumberKey key) => new(values[key]);
    }
}
