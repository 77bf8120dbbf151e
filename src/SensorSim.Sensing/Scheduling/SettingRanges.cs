// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Scheduling;

/// <summary>The values that the settings of each channel may have.</summary>
public static class SettingRanges
{
    // LED drivers of wearables end at 50 to 250 mA (common practice).
    private const int MostCurrentMilli = 250_000;
    private const int LeastPulseWidthMilli = 5_000;
    private const int LeastGainMilli = 10;
    private const int MostGainMilli = 1_000_000;

    // At 2000 Hz still a sample each half second.
    private const int MostDecimation = 1000;

    /// <summary>The values that a setting of a channel may have.</summary>
    /// <param name="values">Values of the scenario: a slot gathers light until the next one begins at most, the last one until the next sample.</param>
    /// <param name="channel">The channel.</param>
    /// <param name="setting">The setting.</param>
    /// <returns>The values; <see cref="SettingLimits.None"/> when the channel has no such setting.</returns>
    public static SettingLimits Of(KeyValues values, ChannelName channel, SensorSetting setting)
    {
        ArgumentNullException.ThrowIfNull(values);
        return !setting.IsOf(channel) ? SettingLimits.None : setting switch
        {
            SensorSetting.LedCurrentMa => new SettingLimits(0, MostCurrentMilli, 1),
            SensorSetting.PulseWidthUs => new SettingLimits(LeastPulseWidthMilli, MostPulseWidthMilli(values), 1),
            SensorSetting.Gain => new SettingLimits(LeastGainMilli, MostGainMilli, 1),
            _ => new SettingLimits(0, MostDecimation * 1000, 1000),
        };
    }

    private static int MostPulseWidthMilli(KeyValues values)
    {
        double spacing = values[OpticsKeys.SlotSpacingUs];
        double last = (1e6 / values[OpticsKeys.RateHz]) - ((OpticalSlots.Order(values).Count - 1) * spacing);

        // What the scenario begins with fits in any case.
        return (int)(1000 * Math.Max(values[OpticsKeys.IntegrationUs], Math.Min(spacing, last)));
    }
}
