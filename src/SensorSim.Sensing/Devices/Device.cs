// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Sensing.Devices;

/// <summary>The device that samples a channel, and its clock.</summary>
public sealed class Device
{
    private Device(string name, DeviceKeys keys, DeviceClock clock, double declaredSeconds)
    {
        Name = name;
        Keys = keys;
        Clock = clock;
        DeclaredSeconds = declaredSeconds;
    }

    /// <summary>Name: <c>sensor</c>, or <c>second</c>.</summary>
    public string Name { get; }

    /// <summary>Whether it is the second device.</summary>
    public bool IsSecond => Keys == DeviceKeys.Second;

    /// <summary>Its knobs.</summary>
    public DeviceKeys Keys { get; }

    /// <summary>Its clock, the delay up to the stamp included.</summary>
    public DeviceClock Clock { get; }

    /// <summary>Delay that the maker states [s].</summary>
    public double DeclaredSeconds { get; }

    /// <summary>The device of a channel.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="channel">The channel.</param>
    public static Device Of(KeyValues values, ChannelName channel)
    {
        ArgumentNullException.ThrowIfNull(values);
        string carries = values[DeviceKeys.SecondCarries];
        bool isSecond = channel switch
        {
            ChannelName.Ecg => carries == "ecg",
            ChannelName.AccelX or ChannelName.AccelY or ChannelName.AccelZ => carries == "light_and_movement",
            _ => carries is "light" or "light_and_movement",
        };
        DeviceKeys keys = isSecond ? DeviceKeys.Second : DeviceKeys.First;
        return new Device(
            isSecond ? "second" : "sensor",
            keys,
            new DeviceClock((values[keys.ClockOffsetMs] + values[keys.RadioDelayMs]) * 1e-3, values[keys.ClockPpm]),
            values[keys.DeclaredDelayMs] * 1e-3);
    }

    /// <summary>Sampling instants, in body time, of a channel of this device: sample n when the clock shows n / rate + offset.</summary>
    /// <param name="rateHz">Nominal sampling rate [Hz].</param>
    /// <param name="offsetSeconds">Place of the slot after the nominal instant [s of the device].</param>
    public SampleGrid Grid(double rateHz, double offsetSeconds) => Clock == default
        ? new SampleGrid(offsetSeconds, 1 / rateHz)
        : new SampleGrid(Clock.BodySeconds(offsetSeconds), 1 / rateHz / Clock.Speed);

    /// <summary>What its clock adds to the declared delay of a channel.</summary>
    /// <param name="channel">A channel of this device.</param>
    public ChannelClock ClockOf(ChannelName channel) =>
        new(channel, (long)Math.Round((Clock.OffsetSeconds - DeclaredSeconds) * 1e9), Clock.Ppm);

    /// <summary>Delay that a channel of this device declares [ns]: what the maker states, less the place of its slot.</summary>
    /// <param name="offsetSeconds">Place of the slot after the nominal instant [s]; negative for a filter that delays.</param>
    public long DeclaredDelayNs(double offsetSeconds) => (long)Math.Round((DeclaredSeconds - offsetSeconds) * 1e9);
}
