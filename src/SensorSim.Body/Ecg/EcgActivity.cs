// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Ecg;

/// <summary>Everything in the ECG that follows no beat: fibrillation and flutter of the atria, fibrillation of the ventricles.</summary>
internal sealed class EcgActivity
{
    private readonly ActivityWave[] _waves;

    /// <summary>Creates the activity for every stretch of the scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public EcgActivity(KeyValues values, ulong seed)
    {
        Atrial = new AtrialActivity(values, seed);
        ActivityWave?[] all = [Atrial.Fibrillation, Atrial.Flutter, VentricularFibrillation.Create(values, seed)];
        _waves = [.. all.OfType<ActivityWave>()];
    }

    /// <summary>The atria's part.</summary>
    public AtrialActivity Atrial { get; }

    /// <summary>The waves, without those that the rhythm never has.</summary>
    public ReadOnlySpan<ActivityWave> Waves => _waves;

    /// <summary>Bounds of the activity within a span of time.</summary>
    /// <param name="fromSeconds">Its begin [s].</param>
    /// <param name="toSeconds">Its end [s].</param>
    /// <param name="millivolts">Receives what no value exceeds [mV]; 0: there is none.</param>
    /// <param name="curvature">Receives what no second derivative exceeds [mV/s²].</param>
    public void Bounds(double fromSeconds, double toSeconds, out double millivolts, out double curvature)
    {
        millivolts = 0;
        curvature = 0;
        foreach (ActivityWave wave in _waves)
        {
            if (wave.Envelope.Touches(fromSeconds, toSeconds))
            {
                millivolts += wave.MostMillivolts;
                curvature += wave.MostCurvature;
            }
        }
    }

    /// <summary>Adds the voltage and its first two derivatives at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="value">Voltage so far [mV].</param>
    /// <param name="slope">First derivative so far [mV/s].</param>
    /// <param name="curvature">Second derivative so far [mV/s²].</param>
    public void Accumulate(double seconds, ref double value, ref double slope, ref double curvature)
    {
        foreach (ActivityWave wave in _waves)
        {
            wave.Accumulate(seconds, ref value, ref slope, ref curvature);
        }
    }
}
