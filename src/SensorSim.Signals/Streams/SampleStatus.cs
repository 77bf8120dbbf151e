// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>What a sensor may say about a single sample. Which flags a sensor gives is part of its description.</summary>
[Flags]
public enum SampleStatus
{
    /// <summary>Nothing to say.</summary>
    None = 0,

    /// <summary>The electrode on the positive input has no contact.</summary>
    LeadOffPositive = 1,

    /// <summary>The electrode on the negative input has no contact.</summary>
    LeadOffNegative = 2,

    /// <summary>The third electrode has no contact.</summary>
    LeadOffThird = 4,

    /// <summary>The amplifier is saturated.</summary>
    Saturated = 8,

    /// <summary>The converter's range was left; the code is clamped.</summary>
    OverRange = 16,

    /// <summary>Samples were lost in the sensor's buffer before this one.</summary>
    BufferOverflow = 32,

    /// <summary>The sensor's own circuit saw a pacing spike.</summary>
    PacingSpike = 64,

    /// <summary>The optical sensor does not touch the skin.</summary>
    NoContact = 128,
}

/// <summary>The parts of a status word: flags (<see cref="SampleStatus"/>) in the low byte, number of the settings in the high byte.</summary>
public static class StatusWord
{
    /// <summary>Bits of the flags.</summary>
    public const ushort Flags = 0xFF;

    /// <summary>Where the number of the settings begins: it goes up by one with each change of a setting of the channel, and wraps after 255.</summary>
    public const int SettingsShift = 8;
}
