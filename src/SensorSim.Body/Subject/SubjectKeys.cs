// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Subject;

/// <summary>Who wears the sensor.</summary>
public static class SubjectKeys
{
    /// <summary>Age.</summary>
    public static readonly NumberKey AgeYears = new()
    {
        Name = "subject.age_years",
        Unit = "years",
        Meaning = "Age of the person.",
        Source = "Choice of this project: adults.",
        Minimum = 18,
        Maximum = 100,
        Default = 40,
    };

    /// <summary>Sex.</summary>
    public static readonly ChoiceKey Sex = new()
    {
        Name = "subject.sex",
        Meaning = "Sex of the person, where published dependencies know one.",
        Source = "Choice of this project.",
        Choices = ["female", "male"],
        Default = "female",
    };

    /// <summary>Height.</summary>
    public static readonly NumberKey HeightM = new()
    {
        Name = "subject.height_m",
        Unit = "m",
        Meaning = "Height of the person; the arterial path grows with it.",
        Source = "Adults (common practice).",
        Minimum = 1.3,
        Maximum = 2.2,
        Default = 1.7,
    };

    /// <summary>Skin tone.</summary>
    public static readonly NumberKey SkinTone = new()
    {
        Name = "subject.skin_tone",
        Unit = "",
        Meaning = "Skin tone on the six steps of the Fitzpatrick scale, 1 very light to 6 very dark; halves are allowed.",
        Source = "Fitzpatrick 1988 (from memory); default: choice of this project.",
        Minimum = 1,
        Maximum = 6,
        Default = 2,
    };

    /// <summary>Every key of the person.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [AgeYears, Sex, HeightM, SkinTone];
}
