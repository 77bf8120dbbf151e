// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Site;

/// <summary>Where the sensor sits.</summary>
public static class SiteKeys
{
    /// <summary>Place of the sensor on the body.</summary>
    public static readonly ChoiceKey Site = new()
    {
        Name = "body.site",
        Meaning = "Where the sensor sits; sets the defaults of pulse shape, arterial path and size of movement.",
        Source = "Choice of this project.",
        Choices = ["finger", "wrist", "chest", "ear"],
        Default = "finger",
    };

    /// <summary>Every knob of the site.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Site];
}
