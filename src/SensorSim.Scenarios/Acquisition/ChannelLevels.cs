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
    public static IEnumerable<Level> Of(KeyValues values, ChannelName channel) => channel switch
    {
        ChannelName.Ecg => Ecg(values),
        ChannelName.Red or ChannelName.Infrared or ChannelName.Green => [.. Light(values, channel), .. Ambient(values)],
        ChannelName.Dark => [.. Ambient(values), new Level("white_noise_na_rms", "nA", values.Course(OpticsKeys.WhiteNoiseNaRms))],
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
        Course atFoot = values.Course(OpticalLevels.LightKey(light));
        Course[] ofNoise = [atFoot, values.Course(OpticsKeys.WhiteNoiseNaRms), values.Course(OpticsKeys.WhiteNoiseSnrDb)];
        yield return new Level("light_at_foot_na", "nA", levels.AtFootNa, [atFoot]);
        yield return new Level("foot_to_peak_na", "nA", FootToPeakNa, [atFoot]);
        yield return new Level("white_noise_na_rms", "nA", t => levels.WhiteNoiseNa(t, FootToPeakNa(t)), ofNoise);
        var recorded = new RecordedLight(values, 0);
        yield return new Level("noise_recording_na_rms", "nA", t => recorded.RmsNa(t, FootToPeakNa(t)), [atFoot, .. recorded.Courses]);
        yield return new Level("movement_artefact_ratio", "", values.Course(OpticsKeys.MovementArtefactRatio));
        yield return new Level("breathing_baseline_percent", "%", values.Course(PulseKeys.RespiratoryBaselinePercent));

        double FootToPeakNa(double t) => OpticalLevels.FootToPeakNa(levels.AtFootNa(t), height);
    }

    private static IEnumerable<Level> Ambient(KeyValues values)
    {
        Course level = values.Course(AmbientKeys.LevelNa);
        Course lamp = values.Course(AmbientKeys.PulseWidthLampNa);
        yield return new Level("ambient_na", "nA", level);
        yield return new Level("flicker_percent", "%", values.Course(AmbientKeys.FlickerPercent), level);
        yield return new Level("pulse_width_lamp_na", "nA", lamp);
        yield return new Level("pulse_width_duty_percent", "%", values.Course(AmbientKeys.PulseWidthDutyPercent), lamp);
    }
}
