// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Tests.Streams;

/// <summary>Small formats for the tests of this folder.</summary>
internal static class Formats
{
    public static ChannelFormat Channel(ChannelName name, int rateHz) => new()
    {
        Name = name,
        Device = "device",
        RateHz = rateHz,
        Bits = 16,
        IsSigned = true,
        UnitPerCode = 0.5,
    };

    public static StreamFormat EcgRedAccel { get; } = new(
        [Channel(ChannelName.Ecg, 500), Channel(ChannelName.Red, 100), Channel(ChannelName.AccelX, 104)]);
}
