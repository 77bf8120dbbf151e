// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Pressure;

/// <summary>Knobs of the artery that the pulse runs through.</summary>
public static class ArteryKeys
{
    /// <summary>Pressure that sets the wave speed.</summary>
    public static readonly ChoiceKey Pressure = new()
    {
        Name = "artery.pressure",
        Meaning = "Which pressure sets the wave speed.",
        Source = "The foot of the pulse runs on the diastolic pressure (common practice).",
        Choices = ["diastolic", "mean"],
        Default = "diastolic",
    };

    /// <summary>Length of the path.</summary>
    public static readonly NumberKey PathM = new()
    {
        Name = "artery.path_m",
        Unit = "m",
        Meaning = "Length of the arterial path from the aortic valve to the sensor; when not set, a share of the height by site.",
        Source = "Shares chosen so that arrival at finger and ear agrees with Jago and Murray 1988; see ArterialPath.",
        HasDefault = false,
        Minimum = 0.1,
        Maximum = 2.5,
        Default = 1,
    };

    /// <summary>Elastic modulus without pressure.</summary>
    public static readonly NumberKey ElasticModulusKpa = new()
    {
        Name = "artery.elastic_modulus_kpa",
        Unit = "kPa",
        Meaning = "Elastic modulus of the wall without pressure, E0; up (stiffer, or tense muscle) speeds the pulse wave.",
        Source = "Choice of this project: with the defaults of wall and diameter 6.8 m/s at 80 mmHg (carotid-radial 7 to 10 m/s, from memory).",
        IsLive = true,
        Minimum = 20,
        Maximum = 1000,
        Default = 100,
    };

    /// <summary>Thickness of the wall.</summary>
    public static readonly NumberKey WallMm = new()
    {
        Name = "artery.wall_mm",
        Unit = "mm",
        Meaning = "Thickness of the wall of the artery; up speeds the pulse wave.",
        Source = "Choice of this project for arteries of the arm.",
        Minimum = 0.1,
        Maximum = 3,
        Default = 0.5,
    };

    /// <summary>Inner diameter.</summary>
    public static readonly NumberKey DiameterMm = new()
    {
        Name = "artery.diameter_mm",
        Unit = "mm",
        Meaning = "Inner diameter of the artery; up slows the pulse wave.",
        Source = "Choice of this project for arteries of the arm.",
        Minimum = 1,
        Maximum = 30,
        Default = 4,
    };

    /// <summary>Growth of stiffness with pressure.</summary>
    public static readonly NumberKey ZetaPerMmhg = new()
    {
        Name = "artery.zeta_per_mmhg",
        Unit = "1/mmHg",
        Meaning = "How fast the elastic modulus grows with pressure: E = E0 exp(zeta P).",
        Source = "0.016 to 0.018 per mmHg (Hughes 1979, from memory).",
        Minimum = 0.005,
        Maximum = 0.03,
        Default = 0.017,
    };

    /// <summary>Every knob of the artery.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Pressure, PathM, ElasticModulusKpa, WallMm, DiameterMm, ZetaPerMmhg];
}
