// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Ecg;

/// <summary>Knobs of ventricular fibrillation.</summary>
public static class VentricularFibrillationKeys
{
    /// <summary>Frequency.</summary>
    public static readonly NumberKey WaveHz = new()
    {
        Name = "ventricular_fibrillation.wave_hz",
        Unit = "Hz",
        Meaning = "Middle frequency of ventricular fibrillation.",
        Source = "Dominant frequency 3 to 9 Hz, typically 4 to 7 Hz (from memory).",
        Minimum = 3,
        Maximum = 9,
        Default = 5,
    };

    /// <summary>Size.</summary>
    public static readonly NumberKey WaveMv = new()
    {
        Name = "ventricular_fibrillation.wave_mv",
        Unit = "mV",
        Meaning = "Mean peak-to-peak height at the onset: that of a sine of the same power.",
        Source = "0.2 to 1 mV, decaying (from memory).",
        Minimum = 0.1,
        Maximum = 2,
        Default = 0.5,
    };

    /// <summary>Decay.</summary>
    public static readonly NumberKey DecaySeconds = new()
    {
        Name = "ventricular_fibrillation.decay_s",
        Unit = "s",
        Meaning = "Time constant of the decay of the height from the onset on; up means that it stays coarse longer.",
        Source = "Coarse waves become fine within minutes (from memory); default: choice of this project.",
        Minimum = 5,
        Maximum = 3600,
        Default = 180,
    };

    /// <summary>Every knob of ventricular fibrillation.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [WaveHz, WaveMv, DecaySeconds];
}
