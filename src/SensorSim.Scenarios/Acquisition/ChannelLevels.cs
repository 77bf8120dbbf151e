// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>The levels of every channel that <c>acquisition.csv</c> tells: each live knob of the sensor, and what follows from several.</summary>
internal static class ChannelLevels
{
    /// <summary>Levels of a channel, in the order of the file.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="channel">The channel.</param>
    public static IEnumerable<Level> Of(KeyValues values, ChannelName channel) =>
        [.. Own(values, channel), .. ConversionLevels.Of(values, channel), .. DataPathLevels.Of(values, channel)];

    private static IEnumerable<Level> Own(KeyValues values, ChannelName channel) => channel switch
    {
        ChannelName.Ecg => Ecg(values),
        ChannelName.Red or ChannelName.Infrared or ChannelName.Green => [.. Light(values, channel), .. Ambient(values), .. SlotLevels.Lit(values, channel)],
        ChannelName.Dark =>
        [
            .. Ambient(values), new Level("white_noise_na_rms", "nA", values.Course(OpticsKeys.WhiteNoiseNaRms)), .. SlotLevels.Dark(values),
        ],
        _ => [new Level("noise_ug_per_rthz", "ug/sqrt(Hz)", values.Course(AccelerometerKeys.NoiseUgPerRthz))],
    };

    private static IEnumerable<Level> Ecg(KeyValues values)
    {
        var noise = new EcgNoiseLevels(values);
        IReadOnlyList<Course> ofMains = noise.Courses(EcgNoiseKind.Mains);
        yield return new Level(
            "white_noise_uv_rms", "uV", noise.WhiteNoiseUvRms, noise.Courses(EcgNoiseKind.WhiteNoise));
        yield return new Level(
            "baseline_wander_mv_rms", "mV", t => noise.RmsMv(EcgNoiseKind.BaselineWander, t), noise.Courses(EcgNoiseKind.BaselineWander));
        yield return new Level("breathing_baseline_mv", "mV", values.Course(EcgAmplifierKeys.BreathingBaselineMv));
        yield return new Level("mains_uv_pp", "uV", noise.MainsUvPp, ofMains);
        yield return OfMains("mains_second_percent", "%", values.Course(EcgAmplifierKeys.MainsSecondPercent));
        yield return OfMains("mains_third_percent", "%", values.Course(EcgAmplifierKeys.MainsThirdPercent));
        yield return OfMains("mains_frequency_hz", "Hz", new Course(values[MainsKeys.FrequencyHz]));
        foreach (Level level in ElectrodeLevels.Of(values))
        {
            yield return level;
        }

        foreach (Level level in EcgNoiseRows.Of(noise))
        {
            yield return level;
        }

        Level OfMains(string item, string unit, Course course) =>
            new(item, unit, t => noise.MainsUvPp(t) == 0 ? 0 : course.Value(t), [course, .. ofMains]);
    }

    private static IEnumerable<Level> Light(KeyValues values, ChannelName light)
    {
        var levels = new OpticalLevels(values, light);
        double height = OpticalLevels.PulseHeight(values, light);
        IReadOnlyList<Course> ofLight = SlotLevels.OfLight(values, light);
        Course[] ofNoise = [.. ofLight, values.Course(OpticsKeys.WhiteNoiseNaRms), values.Course(OpticsKeys.WhiteNoiseSnrDb)];
        yield return new Level("light_at_foot_na", "nA", levels.AtFootNa, ofLight);
        yield return new Level("foot_to_peak_na", "nA", FootToPeakNa, ofLight);
        yield return new Level("white_noise_na_rms", "nA", t => levels.WhiteNoiseNa(t, FootToPeakNa(t)), ofNoise);
        var recorded = new RecordedLight(values, 0);
        yield return new Level("noise_recording_na_rms", "nA", t => recorded.RmsNa(t, FootToPeakNa(t)), [.. ofLight, .. recorded.Courses]);
        Course artefact = values.Course(OpticsKeys.MovementArtefactRatio);
        yield return new Level("movement_artefact_ratio", "", artefact);
        if (values.Course(TissueArtefactKeys.CoherencePercent).Lowest < 100)
        {
            yield return new Level("movement_coherence_percent", "%", values.Course(TissueArtefactKeys.CoherencePercent), artefact);
        }

        yield return new Level("breathing_baseline_percent", "%", values.Course(PulseKeys.RespiratoryBaselinePercent));

        double FootToPeakNa(double t) => OpticalLevels.FootToPeakNa(levels.AtFootNa(t), height * levels.PulseFactor(t));
    }

    private static IEnumerable<Level> Ambient(KeyValues values)
    {
        Course level = values.Course(AmbientKeys.LevelNa);
        Course lux = values.Course(AmbientKeys.LevelLux);
        Course flicker = values.Course(AmbientKeys.FlickerPercent);
        Course daylight = values.Course(AmbientChangeKeys.DaylightLux).Scaled(values[AmbientChangeKeys.DaylightNaPerLux]);
        Course lamp = values.Course(AmbientKeys.PulseWidthLampNa);
        yield return new Level("ambient_na", "nA", MainsNa, [level, lux]);
        yield return OfMains("flicker_percent", "%", flicker);
        yield return OfMains("flicker_second_percent", "%", values.Course(AmbientKeys.FlickerSecondPercent));
        yield return OfMains("flicker_third_percent", "%", values.Course(AmbientKeys.FlickerThirdPercent));
        yield return OfMains("lamp_switch_per_min", "1/min", new Course(values[AmbientChangeKeys.LampSwitchPerMin]));
        yield return new Level("daylight_na", "nA", daylight);
        if (values[AmbientChangeKeys.ShadePerMin] > 0)
        {
            yield return new Level("shade_per_min", "1/min", new Course(values[AmbientChangeKeys.ShadePerMin]), daylight);
            yield return new Level("shade_depth_percent", "%", values.Course(AmbientChangeKeys.ShadeDepthPercent), daylight);
        }

        var hands = new Course(values[AmbientChangeKeys.HandPerMin]);
        yield return new Level("hand_per_min", "1/min", hands);
        yield return new Level("hand_depth_percent", "%", values.Course(AmbientChangeKeys.HandDepthPercent), hands);
        yield return new Level("pulse_width_lamp_na", "nA", lamp);
        yield return new Level("pulse_width_duty_percent", "%", values.Course(AmbientKeys.PulseWidthDutyPercent), lamp);

        double MainsNa(double t) => level.Value(t) + (lux.Value(t) * values[AmbientKeys.NaPerLux]);

        Level OfMains(string item, string unit, Course course) => new(item, unit, t => MainsNa(t) == 0 ? 0 : course.Value(t), [course, level, lux]);
    }
}
