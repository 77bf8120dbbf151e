// SPDX-License-Identifier: MIT
using SensorSim.Detection;
using SensorSim.Detection.Pipeline;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Detectors;

/// <summary>What the library must know of a stream, from the stream's format.</summary>
internal static class SetupOf
{
    public static LibrarySetup Stream(StreamFormat format)
    {
        var setup = new LibrarySetup { Clock = new CommonClock(format.Clock.TicksPerSecond) };
        for (int i = 0; i < format.Channels.Count; i++)
        {
            ChannelFormat channel = format.Channels[i];
            setup.Channels[(int)RoleOf(channel.Name)] = new ChannelSetup
            {
                RateHz = channel.RateHz,
                TicksPerSample = (int)format.TicksPerSample(i),
                Polarity = channel.Polarity,
                ZeroCode = channel.ZeroCode,
                CodesPerUnit256 = (int)Math.Max(1, Math.Min(int.MaxValue, Math.Round(256 / channel.UnitPerCode))),
                Delay256 = (long)Math.Round((decimal)channel.DeclaredDelayNs * 256 * format.Clock.TicksPerSecond / TickClock.NanosecondsPerSecond),
            };
        }

        return setup;
    }

    /// <summary>Channel number of each role in a stream; −1 where it has none.</summary>
    public static int[] ChannelsOf(StreamFormat format)
    {
        var channels = new int[LibrarySetup.ChannelSetups.Length];
        Array.Fill(channels, -1);
        for (int i = 0; i < format.Channels.Count; i++)
        {
            channels[(int)RoleOf(format.Channels[i].Name)] = i;
        }

        return channels;
    }

    public static ChannelRole RoleOf(ChannelName name) => name switch
    {
        ChannelName.Ecg => ChannelRole.Ecg,
        ChannelName.Red => ChannelRole.Red,
        ChannelName.Infrared => ChannelRole.Infrared,
        ChannelName.Green => ChannelRole.Green,
        ChannelName.Dark => ChannelRole.Dark,
        ChannelName.AccelX => ChannelRole.AccelX,
        ChannelName.AccelY => ChannelRole.AccelY,
        ChannelName.AccelZ => ChannelRole.AccelZ,
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "The library knows no such channel."),
    };

    public static ChannelName NameOf(ChannelRole role) => role switch
    {
        ChannelRole.Ecg => ChannelName.Ecg,
        ChannelRole.Red => ChannelName.Red,
        ChannelRole.Infrared => ChannelName.Infrared,
        ChannelRole.Green => ChannelName.Green,
        ChannelRole.Dark => ChannelName.Dark,
        ChannelRole.AccelX => ChannelName.AccelX,
        ChannelRole.AccelY => ChannelName.AccelY,
        ChannelRole.AccelZ => ChannelName.AccelZ,
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "No channel."),
    };
}
