// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>Names of the files of a recording folder, and their columns.</summary>
internal static class RecordingNames
{
    public const string Channels = "channels.csv";

    public const string ChannelsHeader =
        "channel,device,rate_hz,bits,signed,unit,unit_per_code,zero_code,polarity,declared_delay_ns,end_tick";

    public const string SamplesHeader = "sample,code,status";

    public static string Samples(ChannelName channel) => channel.Text() + ".csv";
}
