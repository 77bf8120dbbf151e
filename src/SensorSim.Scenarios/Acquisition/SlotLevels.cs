// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>Levels of what currents, amplifier and contact do to an optical slot, at the settings of the start.</summary>
internal static class SlotLevels
{
    /// <summary>Courses that the light of a slot follows.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="light">Red, infrared or green.</param>
    public static IReadOnlyList<Course> OfLight(KeyValues values, ChannelName light) =>
        [values.Course(OpticalLevels.LightKey(light)), values.Course(ContactKeys.ContactPercent), values.Course(ContactKeys.PressureMmhg)];

    /// <summary>Levels of a lit slot.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="light">Red, infrared or green.</param>
    public static IEnumerable<Level> Lit(KeyValues values, ChannelName light)
    {
        var levels = new OpticalLevels(values, light);
        var noise = new OpticalNoise(values);
        NumberKey current = OpticalLevels.CurrentKey(light);
        double height = OpticalLevels.PulseHeight(values, light);
        double windowUs = values[OpticsKeys.IntegrationUs];
        double thermalNa = noise.ThermalNa(windowUs, 1);
        Func<double, double> ambientNa = AmbientNa(values);
        Course[] ofCurrent = [.. OfLight(values, light), .. AmbientCourses(values)];
        if (values.IsSet(current) || values[LevelControlKeys.LevelControl] == "on")
        {
            yield return new Level("led_current_ma", "mA", new Course(values[current]));
        }

        yield return new Level("shot_noise_na_rms", "nA", ShotNa, ofCurrent);
        yield return new Level("thermal_noise_na_rms", "nA", new Course(thermalNa));
        if (noise.IsOn || values.Course(OpticsKeys.WhiteNoiseNaRms).Highest > 0 || values.IsSet(OpticsKeys.WhiteNoiseSnrDb) || values.IsChanging(OpticsKeys.WhiteNoiseSnrDb))
        {
            yield return new Level(
                "snr_db", "dB", SnrDb, [.. ofCurrent, values.Course(OpticsKeys.WhiteNoiseNaRms), values.Course(OpticsKeys.WhiteNoiseSnrDb)]);
        }

        if (light != ChannelName.Red)
        {
            yield return new Level("crosstalk_percent", "%", new Course(values[OpticsKeys.CrosstalkPercent]));
        }

        yield return new Level("contact_pressure_mmhg", "mmHg", values.Course(ContactKeys.PressureMmhg));
        foreach (Level level in Common(values))
        {
            yield return level;
        }

        double ShotNa(double t) => noise.ShotNa(levels.AtFootNa(t) + ambientNa(t), windowUs);

        // Every noise together, as the optical signal-to-noise ratio is defined.
        double SnrDb(double t)
        {
            double footToPeakNa = OpticalLevels.FootToPeakNa(levels.AtFootNa(t), height * levels.PulseFactor(t));
            double whiteNa = levels.WhiteNoiseNa(t, footToPeakNa);
            double variance = (whiteNa * whiteNa) + noise.Variance(levels.AtFootNa(t) + ambientNa(t), windowUs, 1);
            double ratio = footToPeakNa * footToPeakNa / (8 * variance);
            return ratio > 0 && double.IsFinite(ratio) ? Decibels.OfPower(ratio) : 0;
        }
    }

    /// <summary>Levels of the dark slot.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<Level> Dark(KeyValues values)
    {
        var noise = new OpticalNoise(values);
        double windowUs = values[OpticsKeys.IntegrationUs];
        Func<double, double> ambientNa = AmbientNa(values);
        yield return new Level("shot_noise_na_rms", "nA", t => noise.ShotNa(ambientNa(t), windowUs), AmbientCourses(values));
        yield return new Level("thermal_noise_na_rms", "nA", new Course(noise.ThermalNa(windowUs, 1)));
        yield return new Level("crosstalk_percent", "%", new Course(values[OpticsKeys.CrosstalkPercent]));
        foreach (Level level in Common(values))
        {
            yield return level;
        }
    }

    // What is lost of the contact, so that full contact is 0 and has no row.
    private static IEnumerable<Level> Common(KeyValues values)
    {
        Course contact = values.Course(ContactKeys.ContactPercent);
        var liftOffs = new Course(values[ContactKeys.LiftOffsPerHour]);
        yield return new Level("contact_lost_percent", "%", t => 100 - contact.Value(t), [contact]);
        yield return new Level("lift_offs_per_h", "1/h", liftOffs);
        yield return new Level("lift_off_s", "s", new Course(values[ContactKeys.LiftOffSeconds]), liftOffs);
        yield return new Level("amplifier_full_na", "nA", new Course(values[OpticsKeys.AmplifierFullNa]));
    }

    // Mean ambient light with what leaks in where contact is lost; what happens in the room by itself (shade, hands, switched lamps) left out.
    private static Func<double, double> AmbientNa(KeyValues values)
    {
        Course level = values.Course(AmbientKeys.LevelNa);
        Course lux = values.Course(AmbientKeys.LevelLux);
        double naPerLux = values[AmbientKeys.NaPerLux];
        Course daylight = values.Course(AmbientChangeKeys.DaylightLux);
        double daylightNaPerLux = values[AmbientChangeKeys.DaylightNaPerLux];
        Course lamp = values.Course(AmbientKeys.PulseWidthLampNa);
        Course duty = values.Course(AmbientKeys.PulseWidthDutyPercent);
        Course contact = values.Course(ContactKeys.ContactPercent);
        double leak = values[ContactKeys.LeakRatio] - 1;
        return t =>
        {
            double room = level.Value(t) + (lux.Value(t) * naPerLux) + (daylight.Value(t) * daylightNaPerLux) + (lamp.Value(t) * duty.Value(t) * 0.01);
            return room * (1 + (leak * (1 - (contact.Value(t) * 0.01))));
        };
    }

    private static Course[] AmbientCourses(KeyValues values) =>
    [
        values.Course(AmbientKeys.LevelNa), values.Course(AmbientKeys.LevelLux), values.Course(AmbientChangeKeys.DaylightLux),
        values.Course(AmbientKeys.PulseWidthLampNa), values.Course(AmbientKeys.PulseWidthDutyPercent), values.Course(ContactKeys.ContactPercent),
    ];
}
