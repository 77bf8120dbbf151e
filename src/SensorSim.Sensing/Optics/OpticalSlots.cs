// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>The slots of one optical sample, one spacing apart: red at the nominal instant, infrared, green if there is any, dark.</summary>
public static class OpticalSlots
{
    /// <summary>Whether there is a green slot: green light that is not 0 throughout.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static bool HasGreen(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return values.Course(OpticsKeys.GreenNa).Highest > 0;
    }

    /// <summary>The slots in order of time.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IReadOnlyList<ChannelName> Order(KeyValues values) => HasGreen(values)
        ? [ChannelName.Red, ChannelName.Infrared, ChannelName.Green, ChannelName.Dark]
        : [ChannelName.Red, ChannelName.Infrared, ChannelName.Dark];

    /// <summary>Sampling instants of a slot: the middle of its integration time.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="name">The slot.</param>
    public static SampleGrid Grid(KeyValues values, ChannelName name)
    {
        ArgumentNullException.ThrowIfNull(values);
        return Device.Of(values, name).Grid(values[OpticsKeys.RateHz], OffsetSeconds(values, name));
    }

    /// <summary>Format of a slot's channel. A slot after the nominal instant shows events early: its declared delay is negative.</summary>
    internal static ChannelFormat Format(KeyValues values, ChannelName name) => new()
    {
        Name = name,
        Device = Device.Of(values, name).Name,
        RateHz = (int)values[OpticsKeys.RateHz],
        Bits = (int)values[OpticsKeys.Bits],
        IsSigned = false,
        UnitPerCode = values[OpticsKeys.FullScaleNa] / (1 << (int)values[OpticsKeys.Bits]),
        ZeroCode = (int)Math.Floor((1 << (int)values[OpticsKeys.Bits]) * values[OpticsKeys.ZeroPercent] * 0.01),
        DeclaredDelayNs = Device.Of(values, name).DeclaredDelayNs(OffsetSeconds(values, name)),
    };

    /// <summary>Settings of a slot before the first change.</summary>
    internal static ChannelSettings Settings(KeyValues values, ChannelName name) => new(
        name == ChannelName.Dark ? 0 : values[OpticalLevels.CurrentKey(name)], values[OpticsKeys.IntegrationUs], 1, 1);

    /// <summary>What is left of a step of a setting one sample later: e^(−step/τ).</summary>
    internal static double SettlingKeep(KeyValues values, in SampleGrid grid)
    {
        double seconds = values[OpticsKeys.SettlingMs] * 1e-3;
        return seconds == 0 ? 0 : PortableMath.Exp(-grid.StepSeconds / seconds);
    }

    private static double OffsetSeconds(KeyValues values, ChannelName name)
    {
        IReadOnlyList<ChannelName> order = Order(values);
        int slot = 0;
        while (order[slot] != name)
        {
            slot++;
        }

        return slot * values[OpticsKeys.SlotSpacingUs] * 1e-6;
    }
}
