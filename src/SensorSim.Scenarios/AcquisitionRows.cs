// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios;

/// <summary>What <c>acquisition.csv</c> says of a scenario: each channel's format, clock and the levels of what disturbs it.</summary>
public static class AcquisitionRows
{
    /// <summary>Writes every row.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="format">Format of its stream.</param>
    /// <param name="stream">Receives the text; closed.</param>
    public static void Write(Scenario scenario, StreamFormat format, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        ArgumentNullException.ThrowIfNull(format);
        using var writer = new AcquisitionCsvWriter(stream);
        writer.WriteFormat(format);
        long endNs = format.Clock.Nanoseconds(format.Clock.TickAtOrAfter(scenario.DurationS));
        foreach (ChannelFormat channel in format.Channels)
        {
            writer.Write(new AcquisitionRow(channel.Name, AcquisitionItems.ClockSegmentPpm, 0, endNs, 0, "ppm", ""));
            foreach ((string item, double value, string unit) in Levels(scenario.Values, channel.Name))
            {
                if (value != 0)
                {
                    writer.Write(new AcquisitionRow(channel.Name, AcquisitionItems.LevelPrefix + item, 0, endNs, value, unit, ""));
                }
            }
        }
    }

    private static IEnumerable<(string Item, double Value, string Unit)> Levels(KeyValues values, ChannelName channel) => channel switch
    {
        ChannelName.Ecg => Ecg(values),
        ChannelName.Red => Light(values, ChannelName.Red).Concat(Ambient(values)),
        ChannelName.Infrared => Light(values, ChannelName.Infrared).Concat(Ambient(values)),
        ChannelName.Dark => Ambient(values).Append(("white_noise_na_rms", values[OpticsKeys.WhiteNoiseNaRms], "nA")),
        _ => [("noise_ug_per_rthz", values[AccelerometerKeys.NoiseUgPerRthz], "ug/sqrt(Hz)")],
    };

    private static IEnumerable<(string Item, double Value, string Unit)> Ecg(KeyValues values) =>
    [
        ("white_noise_uv_rms", values[EcgAmplifierKeys.WhiteNoiseUvRms], "uV"),
        ("baseline_wander_mv_rms", values[EcgAmplifierKeys.BaselineWanderMvRms], "mV"),
        ("breathing_baseline_mv", values[EcgAmplifierKeys.BreathingBaselineMv], "mV"),
        ("mains_uv_pp", values[EcgAmplifierKeys.MainsUvPp], "uV"),
        ("mains_frequency_hz", values[EcgAmplifierKeys.MainsUvPp] == 0 ? 0 : values[MainsKeys.FrequencyHz], "Hz"),
    ];

    private static IEnumerable<(string Item, double Value, string Unit)> Light(KeyValues values, ChannelName light)
    {
        double levelNa = OpticalLevels.AtFootNa(values, light);
        double footToPeakNa = OpticalLevels.FootToPeakNa(levelNa, OpticalLevels.PulseHeight(values, light));
        yield return ("light_at_foot_na", levelNa, "nA");
        yield return ("foot_to_peak_na", footToPeakNa, "nA");
        yield return ("white_noise_na_rms", OpticalLevels.WhiteNoiseNa(values, footToPeakNa), "nA");
        yield return ("movement_artefact_ratio", values[OpticsKeys.MovementArtefactRatio], "");
    }

    private static IEnumerable<(string Item, double Value, string Unit)> Ambient(KeyValues values) =>
    [
        ("ambient_na", values[AmbientKeys.LevelNa], "nA"),
        ("flicker_percent", values[AmbientKeys.LevelNa] == 0 ? 0 : values[AmbientKeys.FlickerPercent], "%"),
        ("pulse_width_lamp_na", values[AmbientKeys.PulseWidthLampNa], "nA"),
    ];
}
