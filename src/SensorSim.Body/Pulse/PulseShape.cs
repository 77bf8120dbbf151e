// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Lays the components of a pulse: local in seconds, systolic times following ejection time.</summary>
/// <remarks>
/// Ejection time 413 − 1.7 × rate ms (Weissler 1968, from memory) scales all times; at 60 bpm it is 311 ms. The sizes are a choice
/// of this project: at rest the crest comes about 120 ms, the notch about 290 ms after the foot by tangents.
/// </remarks>
internal static class PulseShape
{
    private const double EjectionAt60BpmMs = 311;

    /// <summary>Where the steepest point lies after the start for a scale of 1 [s]; a first guess for the solver.</summary>
    public const double SteepestGuessSeconds = 0.107;

    /// <summary>Where the minimum lies after the start for a scale of 1 [s]; a first guess for the solver.</summary>
    public const double MinimumGuessSeconds = 0.025;

    /// <summary>Where the foot by tangents lies after the start for a scale of 1 [s]; a first guess for the solver.</summary>
    public const double FootGuessSeconds = 0.066;

    /// <summary>Where the systolic peak lies after the start for a scale of 1 [s]; a first guess for the solver.</summary>
    public const double PeakGuessSeconds = 0.182;

    /// <summary>Factor of all times at a rate.</summary>
    /// <param name="rateBpm">Heart rate [bpm]; below 30 and above 180 bpm the factor stays.</param>
    public static double Scale(double rateBpm) => (413 - (1.7 * Math.Max(30, Math.Min(180, rateBpm)))) / EjectionAt60BpmMs;

    /// <summary>The components of a pulse.</summary>
    /// <param name="startSeconds">Where it starts [s].</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="height">Height of the forward wave [pulse units].</param>
    public static PulseBeat Lay(double startSeconds, double scale, double height)
    {
        PulseBeat beat = default;
        beat[0] = new PulseWave(startSeconds, 0.18 * scale, height, 2);
        beat[1] = new PulseWave(startSeconds + (0.235 * scale), 0.215 * scale, 0.28 * height, 3);
        beat[2] = new PulseWave(startSeconds + (0.1 * scale), 0.36 * scale, 0.25 * height, 1);
        return beat;
    }
}
