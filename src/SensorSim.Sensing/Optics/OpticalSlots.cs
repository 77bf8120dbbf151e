// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>The slots of one optical sample: red at the nominal instant, infrared one spacing later, dark two.</summary>
internal static class OpticalSlots
{
    /// <summary>Format of a slot's channel. A slot after the nominal instant shows events early: its declared delay is negative.</summary>
    public static ChannelFormat Format(KeyValues values, ChannelName name) => new()
    {
        Name = name,
        Device = "sensor",
        RateHz = (int)values[OpticsKeys.RateHz],
        Bits = (int)values[OpticsKeys.Bits],
        IsSigned = false,
        UnitPerCode = values[OpticsKeys.FullScaleNa] / (1 << (int)values[OpticsKeys.Bits]),
        ZeroCode = (int)Math.Floor((1 << (int)values[OpticsKeys.Bits]) * values[OpticsKeys.ZeroPercent] * 0.01),
        DeclaredDelayNs = -(long)Math.Round(OffsetSeconds(values, name) * 1e9),
    };

    /// <summary>Sampling instants of a slot: the middle of its integration time.</summary>
    public static SampleGrid Grid(KeyValues values, ChannelName name) =>
        new(OffsetSeconds(values, name), 1 / values[OpticsKeys.RateHz]);

    private static double OffsetSeconds(KeyValues values, ChannelName name)
    {
        int slot = name == ChannelName.Red ? 0 : name == ChannelName.Infrared ? 1 : 2;
        return slot * values[OpticsKeys.SlotSpacingUs] * 1e-6;
    }
}
