// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Control;

/// <summary>The controls that can be put around a detector, by their words.</summary>
public static class Controls
{
    /// <summary>Every word.</summary>
    public static IReadOnlyList<string> All { get; } = [LightLevelControl.Word, StillnessControl.Word, SensorPowerControl.Word];

    /// <summary>Puts a control around a detector.</summary>
    /// <param name="word">One of <see cref="All"/>.</param>
    /// <param name="inner">The detector; disposed with the result.</param>
    /// <exception cref="ArgumentException">There is no such control.</exception>
    public static ControllingDetector Around(string word, IDetector inner) => word switch
    {
        LightLevelControl.Word => new LightLevelControl(inner),
        StillnessControl.Word => new StillnessControl(inner),
        SensorPowerControl.Word => new SensorPowerControl(inner),
        _ => throw new ArgumentException($"{word} must be one of {string.Join(", ", All)}.", nameof(word)),
    };
}
