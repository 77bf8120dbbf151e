// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Ecg;

/// <summary>Knobs of pacing spikes.</summary>
public static class PacingKeys
{
    /// <summary>Height of a spike.</summary>
    public static readonly NumberKey SpikeMv = new()
    {
        Name = "pacing.spike_mv",
        Unit = "mV",
        Meaning = "Height of a pacing spike at the electrodes; negative points down.",
        Source = "Monitors are tested with 2 to 700 mV (IEC 60601-2-27, read in data sheets); wearables see a few mV (common practice).",
        IsLive = true,
        Minimum = -700,
        Maximum = 700,
        Default = 2,
    };

    /// <summary>Width of a spike.</summary>
    public static readonly NumberKey SpikeMs = new()
    {
        Name = "pacing.spike_ms",
        Unit = "ms",
        Meaning = "Width of a pacing spike.",
        Source = "0.1 to 2 ms (tests of IEC 60601-2-27, read in data sheets); default: common practice.",
        IsLive = true,
        Minimum = 0.1,
        Maximum = 2,
        Default = 0.5,
    };

    /// <summary>Every knob of pacing spikes.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [SpikeMv, SpikeMs];
}
