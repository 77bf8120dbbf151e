// SPDX-License-Identifier: MIT
namespace SensorSim.Detection;

/// <summary>What a sensor may say about a single sample: bits of its status word, as in the link protocol and the recordings.</summary>
public static class SampleFlags
{
    /// <summary>The electrode on the positive input has no contact.</summary>
    public const ushort LeadOffPositive = 1;

    /// <summary>The electrode on the negative input has no contact.</summary>
    public const ushort LeadOffNegative = 2;

    /// <summary>The third electrode has no contact.</summary>
    public const ushort LeadOffThird = 4;

    /// <summary>The amplifier is saturated.</summary>
    public const ushort Saturated = 8;

    /// <summary>The converter's range was left; the code is clamped.</summary>
    public const ushort OverRange = 16;

    /// <summary>Samples were lost in the sensor's buffer before this one.</summary>
    public const ushort BufferOverflow = 32;

    /// <summary>The sensor's own circuit saw a pacing spike.</summary>
    public const ushort PacingSpike = 64;

    /// <summary>The optical sensor does not touch the skin.</summary>
    public const ushort NoContact = 128;

    /// <summary>An electrode has no contact.</summary>
    public const ushort LeadOff = LeadOffPositive | LeadOffNegative | LeadOffThird;

    /// <summary>The value is not that of the signal.</summary>
    public const ushort Clipped = Saturated | OverRange;

    /// <summary>Such samples count as a gap.</summary>
    public const ushort Unusable = LeadOff | Clipped | NoContact;

    /// <summary>Where the number of the settings begins: it goes up by one with each change of a setting of the channel, and wraps after 255.</summary>
    public const int SettingsShift = 8;
}
