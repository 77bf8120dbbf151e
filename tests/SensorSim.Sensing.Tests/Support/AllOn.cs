// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>The shipped scenario that has everything on.</summary>
internal static class AllOn
{
    private static readonly Scenario s_scenario = ScenarioReader.ReadFile(Path.Combine(Root(), "waveforms", "scenarios", "all-on.toml"));

    /// <summary>As it is shipped.</summary>
    public static KeyValues Values() => s_scenario.Values.Copy();

    /// <summary>What comes a few times an hour comes a few times a minute, so that a short stretch has some of everything.</summary>
    public static KeyValues Busy()
    {
        KeyValues values = Values()
            .Set(ElectrodeKeys.ContactLossPerH, 240).Set(ElectrodeKeys.OverloadPerH, 20)
            .Set(ContactKeys.LiftOffsPerHour, 240).Set(AmbientChangeKeys.LampSwitchPerMin, 6);
        foreach (DataPathKeys keys in new[] { DataPathKeys.First, DataPathKeys.Second })
        {
            values.Set(keys.PacketLossPercent, 2).Set(keys.StallsPerMin, 6).Set(keys.LostSamplesPerMillion, 2000).Set(keys.RepeatedSamplesPerMillion, 2000);
        }

        foreach (ConversionKeys keys in new[] { ConversionKeys.Ecg, ConversionKeys.Optics, ConversionKeys.Accelerometer })
        {
            values.Set(keys.StuckCodesPerH, 120).Set(keys.BitFlipsPerMillion, 200);
        }

        return values;
    }

    /// <summary>A busy stretch with settings that change: rates, currents, windows and gains, channels off and on, one slot of several.</summary>
    public static SettingChange[] Schedule() =>
    [
        Change(ChannelName.Ecg, SensorSetting.Decimation, 2, 3.1), Change(ChannelName.Ecg, SensorSetting.Gain, 3.5, 4.25),
        Change(ChannelName.Red, SensorSetting.LedCurrentMa, 25, 5.003), Change(ChannelName.Infrared, SensorSetting.Decimation, 3, 6),
        Change(ChannelName.Infrared, SensorSetting.PulseWidthUs, 60, 7.7), Change(ChannelName.Dark, SensorSetting.Gain, 0.5, 8),
        Change(ChannelName.AccelX, SensorSetting.Decimation, 0, 9.3), Change(ChannelName.Red, SensorSetting.Decimation, 0, 10.01),
        Change(ChannelName.Ecg, SensorSetting.Decimation, 0, 11.5), Change(ChannelName.Infrared, SensorSetting.LedCurrentMa, 4, 11.5),
        Change(ChannelName.Ecg, SensorSetting.Decimation, 1, 14.02), Change(ChannelName.AccelX, SensorSetting.Decimation, 4, 15),
        Change(ChannelName.Red, SensorSetting.Decimation, 1, 16.666), Change(ChannelName.Red, SensorSetting.Gain, 0.25, 16.666),
        Change(ChannelName.Infrared, SensorSetting.Decimation, 1, 18), Change(ChannelName.Red, SensorSetting.LedCurrentMa, 0, 19.2),
        Change(ChannelName.Red, SensorSetting.LedCurrentMa, 12, 20.2),
    ];

    private static SettingChange Change(ChannelName channel, SensorSetting setting, double value, double atSeconds) =>
        new(channel, setting, (int)Math.Round(value * 1000), (long)Math.Round(atSeconds * 1e9));

    private static string Root()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "SensorSim.sln")))
        {
            at = Path.GetDirectoryName(at);
        }

        return at ?? throw new InvalidOperationException("The tests do not run inside the source tree.");
    }
}
