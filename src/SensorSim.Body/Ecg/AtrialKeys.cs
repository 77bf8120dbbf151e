// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Ecg;

/// <summary>Knobs of the atria's own waves in atrial fibrillation and flutter.</summary>
public static class AtrialKeys
{
    /// <summary>Size of fibrillation waves.</summary>
    public static readonly NumberKey FibrillationMv = new()
    {
        Name = "fibrillation.wave_mv",
        Unit = "mV",
        Meaning = "Mean peak-to-peak height of atrial fibrillation waves: that of a sine of the same power.",
        Source = "0.05 to 0.2 mV, fine below 0.1 mV (from memory).",
        Minimum = 0,
        Maximum = 1,
        Default = 0.1,
    };

    /// <summary>Frequency of fibrillation waves.</summary>
    public static readonly NumberKey FibrillationHz = new()
    {
        Name = "fibrillation.wave_hz",
        Unit = "Hz",
        Meaning = "Middle frequency of atrial fibrillation waves; frequency and height wander slowly about it.",
        Source = "6.51 ± 0.80 Hz in 50 episodes (Alcaraz et al., Rev Esp Cardiol 61:154, 2008); dominant frequency 4 to 9 Hz (from memory).",
        Minimum = 4,
        Maximum = 9,
        Default = 6.5,
    };

    /// <summary>Rate of flutter waves.</summary>
    public static readonly NumberKey FlutterRatePerMin = new()
    {
        Name = "flutter.atrial_rate_per_min",
        Unit = "waves/min",
        Meaning = "Rate of the atria in flutter; the ventricles follow every second, third or fourth wave.",
        Source = "250 to 350 a minute (common practice).",
        Minimum = 250,
        Maximum = 350,
        Default = 300,
    };

    /// <summary>Size of flutter waves.</summary>
    public static readonly NumberKey FlutterMv = new()
    {
        Name = "flutter.wave_mv",
        Unit = "mV",
        Meaning = "Peak-to-peak height of flutter waves, a sawtooth that falls slowly and rises fast.",
        Source = "Sawtooth of the textbooks (from memory); size: choice of this project.",
        Minimum = 0,
        Maximum = 1,
        Default = 0.15,
    };

    /// <summary>Every knob of the atria's own waves.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [FibrillationMv, FibrillationHz, FlutterRatePerMin, FlutterMv];
}
