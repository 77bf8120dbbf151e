// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Subjects;

/// <summary>The key that lets a scenario draw its person.</summary>
public static class SubjectDrawKeys
{
    /// <summary>Seed of the person.</summary>
    public static readonly NumberKey Seed = new()
    {
        Name = "subject.seed",
        Meaning = "Draws a person: age, sex, height, skin tone and what depends on them, for every key that the scenario does not set itself. Not set: nobody is drawn, every key has its default.",
        Source = "Choice of this project; the laws and their sources stand in docs/scenarios.md.",
        IsWhole = true,
        HasDefault = false,
        Minimum = 0,
        Maximum = 9007199254740991,
        Default = 0,
    };
}
