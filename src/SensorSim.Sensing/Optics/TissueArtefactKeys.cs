// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Knobs of the way from movement to light: what of it the accelerometer explains, and along which axes it acts.</summary>
public static class TissueArtefactKeys
{
    /// <summary>Coherence with the acceleration.</summary>
    public static readonly NumberKey CoherencePercent = new()
    {
        Name = "optics.movement_coherence_percent",
        Unit = "%",
        Meaning = "Share of the artefact's power that the measured acceleration explains, their magnitude-squared coherence; the rest comes from a movement of the same kind that nobody measures.",
        Source = "A fitted linear model leaves 5 to 15 % (Wood and Asada 2005, abstract); tendons and skin move without the accelerometer; default: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 100,
    };

    /// <summary>How much forward acceleration acts.</summary>
    public static readonly NumberKey ForwardPercent = Share("forward", "forward (x)", 60);

    /// <summary>How much sideways acceleration acts.</summary>
    public static readonly NumberKey SidewaysPercent = Share("sideways", "sideways (y)", 0);

    /// <summary>How much upward acceleration acts.</summary>
    public static readonly NumberKey UpwardPercent = Share("upward", "upward (z)", 100);

    /// <summary>Every knob of the way from movement to light.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [CoherencePercent, ForwardPercent, SidewaysPercent, UpwardPercent];

    private static NumberKey Share(string which, string axis, double value) => new()
    {
        Name = $"optics.artefact_{which}_percent",
        Unit = "%",
        Meaning = $"Share with which {axis} acceleration drives the movement artefact, against the other axes; the size stays that of optics.movement_artefact_ratio.",
        Source = "Choice of this project.",
        Minimum = -100,
        Maximum = 100,
        Default = value,
    };
}
