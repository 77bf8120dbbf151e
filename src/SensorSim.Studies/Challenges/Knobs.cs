// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;

namespace SensorSim.Studies.Challenges;

/// <summary>Every knob that a challenge may turn: from where it disturbs nobody to where bodies, rooms and sensors end.</summary>
/// <remarks>
/// Levels that a scenario may give in two units (nA, µV or dB) have a knob for each. Sources without a reference are from memory of common practice.
/// </remarks>
public static class Knobs
{
    private const string Own = "Choice of this project.";
    private const string Friesen = "Muscle noise is some 10 % of the ECG, electrode motion up to full scale: Friesen et al., IEEE Trans Biomed Eng 37:85, 1990 (from memory); harsh end: choice of this project.";
    private const string Rare = "Rates are choices of this project: one event every few seconds is as bad as it gets.";
    private const string Lux = "Office 300 to 500, supermarket 750 to 1000, sun 32000 to 120000 lux (public illuminance tables).";
    private const string Artefact = "Artefacts of movement are 1 to 10 times the pulse at the wrist (from memory).";
    private const string Radio = "Below 1 % in a good link, 10 % and more behind a body (common practice).";

    /// <summary>Every knob, in order of sections.</summary>
    public static IReadOnlyList<Knob> All { get; } =
    [
        .. Heart(), .. EcgShape(), .. Pulse(), .. Movement(), .. Electrodes(), .. EcgNoise(), .. Light(), .. Room(), .. DataPath(),
    ];

    /// <summary>The names that a user may restrict a search to: sections, keys, and keys with a way.</summary>
    public static IReadOnlyList<string> Names { get; } =
        [.. All.Select(k => k.Key.Section).Concat(All.Select(k => k.Key.Name)).Concat(All.Select(k => k.Name)).Distinct(StringComparer.Ordinal)];

    /// <summary>The knobs of some names; empty when none has one of them.</summary>
    /// <param name="names">Sections, keys, or keys with a way.</param>
    public static IReadOnlyList<Knob> Named(IReadOnlyCollection<string> names) =>
        [.. All.Where(k => names.Contains(k.Key.Section) || names.Contains(k.Key.Name) || names.Contains(k.Name))];

    private static Knob[] Heart() =>
    [
        Up("heart.rate_bpm", 65, 180, "Highest rate of an adult of 40 years, 220 less the age (Fox et al. 1971, from memory).") with { Way = "fast" },
        Up("heart.rate_bpm", 65, 35, "Athletes' resting rates reach 35 bpm (from memory); meters must show 30 to 200 (IEC 60601-2-27, from memory).") with { Way = "slow" },
        Up("heart.respiratory_variability_ms", 20, 120, "Short-term values of Nunan et al., PACE 33:1407, 2010, upper end widened."),
        Up("heart.slow_variability_ms", 20, 120, "Short-term values of Nunan et al., PACE 33:1407, 2010, upper end widened."),
        Up("heart.pause_s", 0, 5, "3 s and more count as a sinus pause (ACC/AHA/HRS guideline 2018, from memory).", 1.5, ("heart.pause_every_s", 20)),
        Up("ectopy.ventricular_percent", 0, 30, "10 % and more of all beats count as frequent (from memory).", 1.5, ("ectopy.ventricular_pattern", "random")),
        Up("ectopy.atrial_percent", 0, 30, Own, 1.5, ("ectopy.atrial_pattern", "random")),
        Up("fibrillation.rr_cv_percent", 5, 40, "24 % is usual (Hennig et al. 2006, Alcaraz et al. 2008).", 2, ("heart.rhythm", "atrial_fibrillation")) with { Least = 0.4 },
    ];

    private static Knob[] EcgShape() =>
    [
        Ratio("ecg.r_mv", 1, 0.15, "Low voltage: QRS below 0.5 mV in limb leads (textbooks, from memory); a patch may see less."),
        Up("ecg.t_mv", 0.3, 1.2, "T to 0.5 mV in limb leads (textbooks, from memory); more in hyperkalaemia.", 1.5),
        Up("ecg.t_alternans_uv", 0, 400, "Visible alternans is tenths of a mV (from memory).", 1.5),
        Up("ecg.respiratory_amplitude_percent", 0, 40, "Modulation used for ECG-derived respiration (Moody et al. 1985, from memory)."),
    ];

    private static Knob[] Pulse() =>
    [
        Ratio("pulse.perfusion_index_percent", 2, 0.1, "Healthy adults about 1.4 % (Lima et al., Crit Care Med 30, 2002); 0.02 % is the least displayed (common practice)."),
        Up("pulse.respiratory_amplitude_percent", 5, 40, "5 to 15 % (common practice), more when blood is missing."),
        Up("pulse.respiratory_baseline_percent", 5, 100, "5 to 15 % (common practice), more when blood is missing."),
        Up("pulse.arrival_spread_ms", 4, 20, Own),
    ];

    private static Knob[] Movement() =>
    [
        Up("optics.movement_artefact_ratio", 0, 10, Artefact, 1, ("movement.activity", "walking")) with { Least = 0.2 },
        Up("movement.gestures_per_min", 0, 20, Artefact, 1, ("optics.movement_artefact_ratio", 2)),
        Up("movement.taps_per_min", 0, 60, Artefact, 1, ("optics.movement_artefact_ratio", 2)),
        Up("movement.typing_g", 0, 0.2, "Key strokes 0.02 to 0.1 g (from memory).", 1, ("optics.movement_artefact_ratio", 2)),
        Up("movement.tremor_g", 0, 1, "Strong tremor, 1 cm at 5 Hz, is 1 g (calculated).", 1, ("optics.movement_artefact_ratio", 2)),
        Up("movement.vehicle_g_rms", 0, 0.3, "0.03 to 0.1 g in a car on a road (from memory).", 1, ("optics.movement_artefact_ratio", 2)),
    ];

    private static Knob[] Electrodes() =>
    [
        Up("electrodes.steps_per_min", 0, 20, "Stretched skin gives millivolts (de Talhouet, Webster: Physiol Meas 17:81, 1996). " + Rare, 1, ("electrodes.step_mv_rms", 1)),
        Up("electrodes.pops_per_min", 0, 60, Friesen, 1, ("electrodes.pop_mv_rms", 1)),
        Up("electrodes.contact_loss_per_h", 0, 240, Rare),
        Up("electrodes.overload_per_h", 0, 60, Rare, 2),
        Up("mains.body_coupling_pf", 0, 30, "3 pF is typical (Metting van Rijn et al., Med Biol Eng Comput 28:389, 1990).", 1, ("electrodes.third", "passive")),
    ];

    private static Knob[] EcgNoise() =>
    [
        Up("ecg_amplifier.white_noise_uv_rms", 0, 150, "Amplifiers stay below 50 µV peak to peak (IEC 60601-2-47, from memory)."),
        Up("ecg_amplifier.baseline_wander_mv_rms", 0, 1, Friesen),
        Up("ecg_amplifier.breathing_baseline_mv", 0, 1.5, "0.15 mV of McSharry et al., IEEE Trans Biomed Eng 50:289, 2003, times ten."),
        Up("ecg_amplifier.mains_uv_pp", 0, 1000, "200 µV with poor contact, a meter must bear 100 µV (IEC 60601-2-27, from memory)."),
        Up("ecg_amplifier.flicker_noise_uv_rms", 0, 100, Own),
        Up("ecg_amplifier.bit_flips_per_million", 0, 1000, Own, 1.5),
        Up("ecg_noise.muscle_uv_rms", 0, 400, Friesen),
        Up("ecg_noise.muscle_snr_db", 40, -10, Friesen),
        Up("ecg_noise.muscle_burst_uv_rms", 0, 800, Friesen, 1, ("ecg_noise.muscle_burst_per_min", 6)),
        Up("ecg_noise.slow_motion_uv_rms", 0, 1500, Friesen, 1, ("ecg_noise.slow_motion_rest_per_min", 30)),
        Up("ecg_noise.sharp_motion_uv_rms", 0, 1000, Friesen, 1, ("ecg_noise.sharp_motion_rest_per_min", 10)),
    ];

    private static Knob[] Light() =>
    [
        Up("optics.white_noise_na_rms", 0, 50, "The infrared pulse of an index of 2 % is some 40 nA high (calculated)."),
        Up("optics.white_noise_snr_db", 60, -5, "At 0 dB noise is as strong as the pulse (definition)."),
        Up("optics.contact_percent", 100, 10, "Below 5 % there is no contact at all. " + Own),
        Up("optics.contact_pressure_mmhg", 35, 130, "Best pulse at 35 to 48 mmHg, Sensors 21:8421, 2021; gone above systolic pressure."),
        Up("optics.lift_offs_per_h", 0, 180, Rare),
        Up("optics.crosstalk_percent", 0, 10, Own),
        Up("optics.bit_flips_per_million", 0, 1000, Own, 1.5),
    ];

    private static Knob[] Room() =>
    [
        Ratio("ambient.level_lux", 10, 5000, Lux),
        Up("ambient.flicker_percent", 10, 100, "Percent flicker as in IEEE PAR1789, 2010; 5 to 45 % by lamp (from memory).", 1, ("ambient.level_lux", 500)) with { Least = 0.1 },
        Up("ambient.lamp_switch_per_min", 0, 20, Rare, 1, ("ambient.level_lux", 500)) with { Least = 0.1 },
        Ratio("ambient.daylight_lux", 100, 100000, Lux),
        Up("ambient.shade_per_min", 0, 30, Rare, 1, ("ambient.daylight_lux", 20000)) with { Least = 0.2 },
        Up("ambient.hand_per_min", 0, 20, Rare, 1, ("ambient.daylight_lux", 5000)) with { Least = 0.05 },
        Ratio("ambient.pulse_width_lamp_na", 1, 500, Own),
    ];

    private static Knob[] DataPath() =>
    [
        Up("device.packet_loss_percent", 0, 30, Radio),
        Up("device.packet_delay_ms", 0, 2000, Radio),
        Up("device.stalls_per_min", 0, 20, Rare),
        Up("device.lost_samples_per_million", 0, 10000, Own),
        Up("device.repeated_samples_per_million", 0, 10000, Own),
        Up("device.clock_ppm", 0, 200, "Crystals are within 20 to 100 ppm (own arithmetic of common data)."),
    ];

    private static Knob Up(string key, double mild, double harsh, string source, double weight = 1, params (string Key, object Value)[] along) => new()
    {
        Key = (NumberKey)AllKeys.Find(key)!,
        Mild = mild,
        Harsh = harsh,
        Weight = weight,
        Along = [.. along.Select(a => Value(a.Key, a.Value))],
        Source = source,
    };

    private static Knob Ratio(string key, double mild, double harsh, string source) => Up(key, mild, harsh, source) with { IsInRatios = true };

    private static KeyValue Value(string key, object value) => AllKeys.Find(key) switch
    {
        NumberKey number => new KeyValue(number, Convert.ToDouble(value, System.Globalization.CultureInfo.InvariantCulture)),
        ChoiceKey choice => new KeyValue(choice, (string)value),
        _ => throw new InvalidOperationException($"{key} has neither numbers nor words."),
    };
}
