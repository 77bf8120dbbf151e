// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Devices;

/// <summary>Knobs of one device's clock: the same set for the first and the second device.</summary>
public sealed class DeviceKeys
{
    private DeviceKeys(string section)
    {
        ClockOffsetMs = new NumberKey
        {
            Name = section + ".clock_offset_ms",
            Unit = "ms",
            Meaning = "What the device's clock shows at body time 0: what is left after the clocks were set to each other. Positive: everything seems to come later.",
            Source = "Choice of this project; two unsynchronised recorders differ by milliseconds to seconds (common practice).",
            Minimum = -2000,
            Maximum = 2000,
            Default = 0,
        };
        ClockPpm = new NumberKey
        {
            Name = section + ".clock_ppm",
            Unit = "ppm",
            Meaning = "How much too fast the device's clock runs; its samples are that much closer together.",
            Source = "Crystals are within 20 to 100 ppm; 20 ppm are 1.7 s a day (own arithmetic).",
            Minimum = -1000,
            Maximum = 1000,
            Default = 0,
        };
        RadioDelayMs = new NumberKey
        {
            Name = section + ".radio_delay_ms",
            Unit = "ms",
            Meaning = "Time from sampling to the time stamp, for a device whose samples are stamped when the radio delivers them.",
            Source = "Connection intervals of 7.5 ms to 4 s (radio module guides).",
            Minimum = 0,
            Maximum = 5000,
            Default = 0,
        };
        DeclaredDelayMs = new NumberKey
        {
            Name = section + ".declared_delay_ms",
            Unit = "ms",
            Meaning = "Delay that the maker states for the device's channels, on top of what slots and the ECG's low-pass declare; what it leaves of offset and radio delay is the synchronisation error.",
            Source = "Choice of this project.",
            Minimum = -5000,
            Maximum = 5000,
            Default = 0,
        };
        Flags = new ChoiceKey
        {
            Name = section + ".flags",
            Unit = "",
            Meaning = "What the status words say: everything; contact (electrodes off, no skin); range (amplifier saturated, converter's range left); both; or nothing, the number of the settings neither.",
            Source = "Choice of this project; many front ends tell lead-off and nothing else, many optical ones only range (common practice).",
            Choices = ["all", "contact", "range", "contact_and_range", "none"],
            Default = "all",
        };
        All = [ClockOffsetMs, ClockPpm, RadioDelayMs, DeclaredDelayMs, Flags];
    }

    /// <summary>The first device: every channel that the second does not carry.</summary>
    public static DeviceKeys First { get; } = new("device");

    /// <summary>The second device.</summary>
    public static DeviceKeys Second { get; } = new("second_device");

    /// <summary>What the second device carries.</summary>
    public static ChoiceKey SecondCarries { get; } = new()
    {
        Name = "second_device.carries",
        Unit = "",
        Meaning = "Channels that a second device of its own clock samples: a chest belt and a watch are two devices.",
        Source = "Choice of this project.",
        Choices = ["nothing", "ecg", "light", "light_and_movement"],
        Default = "nothing",
    };

    /// <summary>What the clock shows at body time 0.</summary>
    public NumberKey ClockOffsetMs { get; }

    /// <summary>How much too fast it runs.</summary>
    public NumberKey ClockPpm { get; }

    /// <summary>Time from sampling to the stamp.</summary>
    public NumberKey RadioDelayMs { get; }

    /// <summary>Delay that the maker states.</summary>
    public NumberKey DeclaredDelayMs { get; }

    /// <summary>Which flags the device gives.</summary>
    public ChoiceKey Flags { get; }

    /// <summary>Every knob of this device.</summary>
    public IReadOnlyList<KeyDefinition> All { get; }
}
