// SPDX-License-Identifier: MIT
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Ecg;

/// <summary>Ventricular fibrillation: a disorganised band of eight lines whose height decays from the onset on; no beats, no R peaks.</summary>
/// <remarks>Band of a standard deviation of 0.16 of its middle frequency: choice of this project.</remarks>
internal static class VentricularFibrillation
{
    private const double WidthShare = 0.16;

    /// <summary>The waves for every stretch of the scenario; null when the rhythm never has any.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public static ActivityWave? Create(KeyValues values, ulong seed)
    {
        var envelope = new ActivityEnvelope(
            values.Course(HeartKeys.Rhythm), "ventricular_fibrillation", values[VentricularFibrillationKeys.DecaySeconds]);
        return envelope.Count == 0 ? null : ActivityWave.Band(
            envelope,
            new KeyedRandom(seed, "ventricular_fibrillation.clock"),
            new KeyedRandom(seed, "ventricular_fibrillation.lines"),
            values[VentricularFibrillationKeys.WaveHz],
            WidthShare * values[VentricularFibrillationKeys.WaveHz],
            EcgShape.PolaritySign(values) * values[VentricularFibrillationKeys.WaveMv]);
    }
}
