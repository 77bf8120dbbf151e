// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Pulse;

/// <summary>Knobs of the arterial pulse.</summary>
public static class PulseKeys
{
    /// <summary>Pulse arrival time.</summary>
    public static readonly NumberKey ArrivalMs = new()
    {
        Name = "pulse.arrival_ms",
        Unit = "ms",
        Meaning = "Mean pulse arrival time: R peak to the foot by tangents of the arterial pulse, whatever site and activity; with arrival.from = \"pressure\" it follows from the artery instead.",
        Source = "Finger 180 to 280 ms, wrist 160 to 250 ms (from memory).",
        IsLive = true,
        Minimum = 80,
        Maximum = 400,
        Default = 210,
    };

    /// <summary>Spread of the arrival time.</summary>
    public static readonly NumberKey ArrivalSpreadMs = new()
    {
        Name = "pulse.arrival_spread_ms",
        Unit = "ms",
        Meaning = "Standard deviation of the arrival time from beat to beat.",
        Source = "3 to 8 ms at rest (from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 20,
        Default = 4,
    };

    /// <summary>Infrared perfusion index.</summary>
    public static readonly NumberKey PerfusionIndexPercent = new()
    {
        Name = "pulse.perfusion_index_percent",
        Unit = "%",
        Meaning = "Perfusion index of the infrared light: pulse height over the middle of brightest and darkest light, for a steady pulse.",
        Source = "Displayed range 0.02 to 20 % (common practice); healthy adults around 1.4 % (Lima et al., Crit Care Med 30, 2002).",
        IsLive = true,
        Minimum = 0.02,
        Maximum = 20,
        Default = 2,
    };

    /// <summary>Ratio of ratios.</summary>
    public static readonly NumberKey RatioOfRatios = new()
    {
        Name = "pulse.ratio_of_ratios",
        Unit = "",
        Meaning = "Pulse height of red over infrared absorbance; up means less oxygen. Set it only to give the ratio itself; else oxygen.saturation_percent makes it.",
        Source = "0.5 stands for about 97 % on the textbook line 110 - 25 R (Webster, Design of Pulse Oximeters, 1997, from memory).",
        IsLive = true,
        Minimum = 0.2,
        Maximum = 3,
        Default = 0.5,
    };

    /// <summary>Respiratory modulation of the pulse height.</summary>
    public static readonly NumberKey RespiratoryAmplitudePercent = new()
    {
        Name = "pulse.respiratory_amplitude_percent",
        Unit = "%",
        Meaning = "How far breathing changes the pulse height, peak, in percent of it; inspiration lowers it.",
        Source = "5 to 15 % (common practice).",
        IsLive = true,
        Minimum = 0,
        Maximum = 50,
        Default = 5,
    };

    /// <summary>Respiratory modulation of the baseline.</summary>
    public static readonly NumberKey RespiratoryBaselinePercent = new()
    {
        Name = "pulse.respiratory_baseline_percent",
        Unit = "%",
        Meaning = "How far breathing moves the absorbance under the pulse, peak, in percent of the pulse height.",
        Source = "5 to 15 % (common practice).",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 5,
    };

    /// <summary>Stiffness index.</summary>
    public static readonly NumberKey StiffnessIndexMPerS = new()
    {
        Name = "pulse.stiffness_index_m_per_s",
        Unit = "m/s",
        Meaning = "Stiffness of the arteries: the person's height over the time from systolic to diastolic peak at 60 bpm; stiff ones merge the two.",
        Source = "5 to 12 m/s usual (from memory; index after Millasseau et al., Clin Sci 103, 2002).",
        IsLive = true,
        Minimum = 5,
        Maximum = 15,
        Default = 7,
    };

    /// <summary>Reflection index.</summary>
    public static readonly NumberKey ReflectionIndexPercent = new()
    {
        Name = "pulse.reflection_index_percent",
        Unit = "%",
        Meaning = "Height of the diastolic peak over that of the systolic peak, both above the foot, at 60 bpm at the finger; follows the vascular tone.",
        Source = "40 to 80 % usual (from memory).",
        IsLive = true,
        Minimum = 40,
        Maximum = 80,
        Default = 50,
    };

    /// <summary>Effect of filling on the pulse.</summary>
    public static readonly NumberKey FillingEffect = new()
    {
        Name = "pulse.filling_effect",
        Unit = "",
        Meaning = "How strongly the interval before a beat sets its pulse height: 0 not at all, 1 as the rule says (weak after a short interval), 2 twice that.",
        Source = "Choice of this project; a premature beat ejects about 71 % less (clinical review).",
        IsLive = true,
        Minimum = 0,
        Maximum = 2,
        Default = 1,
    };

    /// <summary>Every knob of the pulse.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        ArrivalMs, ArrivalSpreadMs, PerfusionIndexPercent, RatioOfRatios, RespiratoryAmplitudePercent, RespiratoryBaselinePercent,
        StiffnessIndexMPerS, ReflectionIndexPercent, FillingEffect,
    ];
}
