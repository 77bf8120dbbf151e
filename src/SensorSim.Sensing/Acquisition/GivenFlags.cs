// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Devices;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Acquisition;

/// <summary>Which bits of a status word a sensor gives to whoever reads it.</summary>
internal static class GivenFlags
{
    /// <summary>The mask that changes nothing.</summary>
    public const ushort All = ushort.MaxValue;

    private const ushort Settings = unchecked((ushort)~StatusWord.Flags);

    private const ushort Contact = Settings
        | (ushort)(SampleStatus.LeadOffPositive | SampleStatus.LeadOffNegative | SampleStatus.LeadOffThird | SampleStatus.NoContact);

    private const ushort Range = Settings | (ushort)(SampleStatus.Saturated | SampleStatus.OverRange);

    /// <summary>Bits that the device of a channel gives.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="channel">The channel.</param>
    public static ushort Of(KeyValues values, ChannelName channel) => values[Device.Of(values, channel).Keys.Flags] switch
    {
        "none" => 0,
        "contact" => Contact,
        "range" => Range,
        "contact_and_range" => Contact | Range,
        _ => All,
    };

    /// <summary>Takes the other bits away.</summary>
    /// <param name="status">Complete status words.</param>
    /// <param name="given">Bits that stay.</param>
    public static void Keep(Span<ushort> status, ushort given)
    {
        if (given == All)
        {
            return;
        }

        foreach (ref ushort word in status)
        {
            word &= given;
        }
    }
}
