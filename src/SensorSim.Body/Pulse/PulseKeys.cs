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
        Meaning = "Mean pulse arrival time: R peak to the foot by tangents of the arterial pulse.",
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
        Meaning = "Pulse height of red over infrared absorbance; up means less oxygen.",
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

    /// <summary>Every knob of the pulse.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [ArrivalMs, ArrivalSpreadMs, PerfusionIndexPercent, RatioOfRatios, RespiratoryAmplitudePercent, RespiratoryBaselinePercent];
}
