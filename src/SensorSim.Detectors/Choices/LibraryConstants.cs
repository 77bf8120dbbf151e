// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.Choices;

/// <summary>The constants of the project's own library that a study may vary, as keys.</summary>
public static class LibraryConstants
{
    private delegate void Setter(ref Tuning tuning, int value);

    private static readonly (NumberKey Key, Setter Set)[] s_all =
    [
        Make("beat_refractory_ms", "ms", "No two beats lie closer than this.", 100, 400, Tuning.Usual.BeatRefractoryMs, static (ref Tuning t, int v) => t.BeatRefractoryMs = (short)v),
        Make("beat_t_wave_ms", "ms", "Up to this long after a beat a candidate may be its T wave.", 200, 600, Tuning.Usual.BeatTWaveMs, static (ref Tuning t, int v) => t.BeatTWaveMs = (short)v),
        Make("beat_threshold_percent", "%", "Threshold of beats, of the usual one.", 25, 400, Tuning.Usual.BeatThresholdPercent, static (ref Tuning t, int v) => t.BeatThresholdPercent = (short)v),
        Make("pulse_refractory_ms", "ms", "No two pulses lie closer than this.", 150, 500, Tuning.Usual.PulseRefractoryMs, static (ref Tuning t, int v) => t.PulseRefractoryMs = (short)v),
        Make("pulse_threshold_percent", "%", "Thresholds of pulses, of the usual ones.", 25, 400, Tuning.Usual.PulseThresholdPercent, static (ref Tuning t, int v) => t.PulseThresholdPercent = (short)v),
        Make("gate_shut_ms", "ms", "A gate that shut stays shut for this long at least.", 500, 15_000, Tuning.Usual.GateShutMs, static (ref Tuning t, int v) => t.GateShutMs = (short)v),
        Make("ecg_gate_faults", "", "Features of the last beats that may stand out when the gate of the ECG opens.", 0, 12, Tuning.Usual.EcgFaultsToOpen, static (ref Tuning t, int v) => t.EcgFaultsToOpen = (byte)v),
        Make("light_gate_faults", "", "Features of the last pulses that may stand out when the gate of the light opens.", 0, 12, Tuning.Usual.LightFaultsToOpen, static (ref Tuning t, int v) => t.LightFaultsToOpen = (byte)v),
        Make("gate_doubt", "", "After a signal that was not convincing for this many beats or pulses, as many must be before a gate opens.", 0, 8, Tuning.Usual.Doubt, static (ref Tuning t, int v) => t.Doubt = (byte)v),
    ];

    /// <summary>Every constant.</summary>
    public static IReadOnlyList<NumberKey> All { get; } = [.. s_all.Select(c => c.Key)];

    /// <summary>The tuning with some constants set.</summary>
    /// <param name="constants">Values by name; others keep their usual values.</param>
    /// <exception cref="NotSupportedException">There is no such constant, or it cannot have the value; the message says what would be right.</exception>
    internal static Tuning Of(IReadOnlyDictionary<string, double> constants)
    {
        Tuning tuning = Tuning.Usual;
        foreach ((string name, double value) in constants.OrderBy(c => c.Key, StringComparer.Ordinal))
        {
            int at = Array.FindIndex(s_all, c => c.Key.Name == name);
            if (at < 0)
            {
                throw new NotSupportedException($"{name} is no constant of the library; there are {string.Join(", ", All.Select(k => k.Name))}.");
            }

            NumberKey key = s_all[at].Key;
            if (!(value >= key.Minimum && value <= key.Maximum) || value != Math.Truncate(value))
            {
                throw new NotSupportedException(FormattableString.Invariant($"{name} = {value:R} must be {key.RangeText}."));
            }

            s_all[at].Set(ref tuning, (int)value);
        }

        return tuning;
    }

    private static (NumberKey Key, Setter Set) Make(string name, string unit, string meaning, double minimum, double maximum, double usual, Setter set) => (
        new NumberKey
        {
            Name = $"detector.{name}",
            Unit = unit,
            Meaning = meaning,
            Source = "Usual value: see the pages of docs about the stages; range: a choice of this project.",
            Minimum = minimum,
            Maximum = maximum,
            Default = usual,
            IsWhole = true,
        },
        set);
}
