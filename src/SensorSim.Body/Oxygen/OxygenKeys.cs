// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Oxygen;

/// <summary>Knobs of oxygen in the blood and of the light that shows it.</summary>
public static class OxygenKeys
{
    /// <summary>Arterial oxygen saturation.</summary>
    public static readonly NumberKey SaturationPercent = new()
    {
        Name = "oxygen.saturation_percent",
        Unit = "%",
        Meaning = "Functional oxygen saturation of arterial blood: oxygenated over oxygenated and deoxygenated haemoglobin.",
        Source = "95 to 100 in healthy adults (textbook value, from memory).",
        IsLive = true,
        Minimum = 30,
        Maximum = 100,
        Default = 97,
    };

    /// <summary>Law from saturation to ratio of ratios.</summary>
    public static readonly ChoiceKey Law = new()
    {
        Name = "oxygen.law",
        Meaning = "From saturation to ratio of ratios: by extinction coefficients, by a calibration table, or not at all (the ratio is given).",
        Source = "Beer-Lambert law and empirical calibration: Webster, Design of Pulse Oximeters, 1997 (from memory). When not set, a given pulse.ratio_of_ratios counts as given_ratio.",
        Choices = ["calibration_table", "extinction", "given_ratio"],
        Default = "calibration_table",
    };

    /// <summary>Calibration table.</summary>
    public static readonly TextKey Table = new()
    {
        Name = "oxygen.table",
        Meaning = "Calibration as ratio:saturation pairs, for example \"0.4:100, 0.6:95, 1.0:85\"; ratios rise, saturations fall, straight lines between. Empty: 110 - 25 R.",
        Source = "Textbook line 110 - 25 R: Webster 1997 (from memory); fair for ratios of 0.4 to 1.0.",
        MaximumLength = 500,
    };

    /// <summary>Carboxyhaemoglobin.</summary>
    public static readonly NumberKey CarboxyhaemoglobinPercent = new()
    {
        Name = "oxygen.carboxyhaemoglobin_percent",
        Unit = "%",
        Meaning = "Share of all haemoglobin that is bound to carbon monoxide; two lights take it for oxygenated blood.",
        Source = "0.5 to 1.5 in non-smokers, above 50 often deadly (from memory); off by default.",
        IsLive = true,
        Minimum = 0,
        Maximum = 45,
        Default = 0,
    };

    /// <summary>Methaemoglobin.</summary>
    public static readonly NumberKey MethaemoglobinPercent = new()
    {
        Name = "oxygen.methaemoglobin_percent",
        Unit = "%",
        Meaning = "Share of all haemoglobin that is oxidised; it draws readings towards one value whatever the saturation.",
        Source = "Below 1 in health (from memory); off by default.",
        IsLive = true,
        Minimum = 0,
        Maximum = 45,
        Default = 0,
    };

    /// <summary>Venous share of the pulsation.</summary>
    public static readonly NumberKey VenousSharePercent = new()
    {
        Name = "oxygen.venous_share_percent",
        Unit = "%",
        Meaning = "Share of the pulsing blood that is venous; up lowers the reading.",
        Source = "Choice of this project; off by default.",
        IsLive = true,
        Minimum = 0,
        Maximum = 50,
        Default = 0,
    };

    /// <summary>Venous saturation.</summary>
    public static readonly NumberKey VenousSaturationPercent = new()
    {
        Name = "oxygen.venous_saturation_percent",
        Unit = "%",
        Meaning = "Functional oxygen saturation of the venous blood that pulses along.",
        Source = "75 at rest (textbook value, from memory).",
        IsLive = true,
        Minimum = 10,
        Maximum = 100,
        Default = 75,
    };

    /// <summary>Wavelength of red light.</summary>
    public static readonly NumberKey RedNm = new()
    {
        Name = "oxygen.red_nm",
        Unit = "nm",
        Meaning = "Wavelength of the red light.",
        Source = "660 nm (common practice).",
        Minimum = 600,
        Maximum = 720,
        Default = 660,
    };

    /// <summary>Wavelength of infrared light.</summary>
    public static readonly NumberKey InfraredNm = new()
    {
        Name = "oxygen.infrared_nm",
        Unit = "nm",
        Meaning = "Wavelength of the infrared light.",
        Source = "880 to 940 nm (common practice).",
        Minimum = 820,
        Maximum = 1000,
        Default = 940,
    };

    /// <summary>Wavelength of green light.</summary>
    public static readonly NumberKey GreenNm = new()
    {
        Name = "oxygen.green_nm",
        Unit = "nm",
        Meaning = "Wavelength of the green light.",
        Source = "520 to 530 nm (common practice).",
        Minimum = 500,
        Maximum = 590,
        Default = 530,
    };

    /// <summary>Path of green light.</summary>
    public static readonly NumberKey GreenPathPercent = new()
    {
        Name = "oxygen.green_path_percent",
        Unit = "%",
        Meaning = "Path of green light through pulsing blood over that of infrared light; up makes the green pulse larger.",
        Source = "Choice of this project: green light is absorbed about 33 times as strongly and does not get deep; 8 % makes its pulse 2.7 times that of infrared.",
        Minimum = 1,
        Maximum = 50,
        Default = 8,
    };

    /// <summary>Bias by skin.</summary>
    public static readonly NumberKey SkinBiasPoints = new()
    {
        Name = "oxygen.skin_bias_points",
        Unit = "points",
        Meaning = "How many points of saturation too high the light shows for each step of skin tone above 2 (below 2: too low).",
        Source = "Oximeters read 1 to 2 points too high on dark skin (Sjoding et al., N Engl J Med 383:2477, 2020, and later): 0.25 to 0.5 a step. Off by default.",
        Minimum = -2,
        Maximum = 2,
        Default = 0,
    };

    /// <summary>Every key of oxygen.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        SaturationPercent, Law, Table, CarboxyhaemoglobinPercent, MethaemoglobinPercent, VenousSharePercent, VenousSaturationPercent,
        RedNm, InfraredNm, GreenNm, GreenPathPercent, SkinBiasPoints,
    ];
}
