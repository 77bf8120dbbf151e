// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;

namespace SensorSim.Body.Tests.Support;

/// <summary>
/// The clean waveforms as the formulas say, by System.Math: a sum of Gaussians for the ECG, of (x·e^(1−x))^n for the pulse. Shares
/// nothing with the code under test but each beat's wave parameters.
/// </summary>
internal sealed class DirectWaves
{
    private readonly List<EcgWave> _ecg = [];
    private readonly List<PulseWave> _pulse = [];

    /// <summary>Takes the waves of a run of beats. The waves of far neighbours may be left out: they are nothing there.</summary>
    public DirectWaves(IEnumerable<BeatView> beats)
    {
        foreach (BeatView beat in beats)
        {
            for (int i = 0; i < EcgBeat.Count; i++)
            {
                _ecg.Add(beat.Ecg[i]);
            }

            for (int i = 0; i < PulseBeat.Count; i++)
            {
                _pulse.Add(beat.Pulse[i]);
            }
        }
    }

    /// <summary>The waves round beat <paramref name="id"/>: enough neighbours on either side.</summary>
    public static DirectWaves Round(List<BeatView> beats, int id)
    {
        int first = Math.Max(0, id - 16);
        var waves = new DirectWaves(beats.GetRange(first, Math.Min(beats.Count, id + 4) - first));

        // What is below 1e-15 within a second of the beat only costs time.
        double r = beats[id].Ecg[EcgBeat.R].CentreSeconds;
        waves._ecg.RemoveAll(w => Math.Abs(w.CentreSeconds - r) > 0.3 + (9 * w.SigmaSeconds));
        waves._pulse.RemoveAll(w => (r - w.StartSeconds) / w.ToPeakSeconds > 16 || w.StartSeconds > r + 1);
        return waves;
    }

    /// <summary>Voltage [mV], Gaussians beyond a number of standard deviations left out.</summary>
    public double Ecg(double seconds, double cutSigmas = double.PositiveInfinity)
    {
        double sum = 0;
        foreach (EcgWave wave in _ecg)
        {
            double x = (seconds - wave.CentreSeconds) / wave.SigmaSeconds;
            if (Math.Abs(x) <= cutSigmas)
            {
                sum += wave.Millivolts * Math.Exp(-x * x / 2);
            }
        }

        return sum;
    }

    /// <summary>Arterial pulse [pulse units]; with or without the cut of each component.</summary>
    public double Pulse(double seconds, bool isCut = false)
    {
        double sum = 0;
        foreach (PulseWave wave in _pulse)
        {
            double x = (seconds - wave.StartSeconds) / wave.ToPeakSeconds;
            if (x > 0 && x < 40 && !(isCut && seconds >= wave.CutSeconds))
            {
                double h = x * Math.Exp(1 - x);
                double n = h * h * h;
                sum += wave.Height * (wave.Thirds == 1 ? n : wave.Thirds == 2 ? n * n : n * n * n);
            }
        }

        return sum;
    }
}
