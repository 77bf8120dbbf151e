// SPDX-License-Identifier: MIT
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Ecg;

/// <summary>The atria's own waves in atrial fibrillation and flutter.</summary>
/// <remarks>
/// <para>Fibrillation: a band of eight lines, 0.4 Hz wide (standard deviation), whose sum waxes and wanes.</para>
/// <para>Flutter: an inverted sawtooth, slow fall and fast rise, from its first four harmonics 1/l with Lanczos' factors sinc(l/5) against
/// ringing; the rate wanders by 0.5 % within half a minute to some minutes. A whole phase is the middle of the rise.</para>
/// <para>Waves: textbooks (from memory); widths and wander: choice of this project.</para>
/// </remarks>
internal sealed class AtrialActivity
{
    private const double FibrillationWidthHz = 0.4;
    private const double FlutterSpread = 0.005;

    /// <summary>Creates the waves for every stretch of the scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public AtrialActivity(KeyValues values, ulong seed)
    {
        ChoiceCourse rhythm = values.Course(HeartKeys.Rhythm);
        double sign = EcgShape.PolaritySign(values);
        var fibrillating = new ActivityEnvelope(rhythm, "atrial_fibrillation");
        if (fibrillating.Count > 0 && values[AtrialKeys.FibrillationMv] > 0)
        {
            Fibrillation = ActivityWave.Band(
                fibrillating,
                new KeyedRandom(seed, "fibrillation.clock"),
                new KeyedRandom(seed, "fibrillation.lines"),
                values[AtrialKeys.FibrillationHz],
                FibrillationWidthHz,
                sign * values[AtrialKeys.FibrillationMv]);
        }

        double hz = values[AtrialKeys.FlutterRatePerMin] / 60;
        FlutterPhase = new WanderingPhase(new KeyedRandom(seed, "flutter.phase"), hz, FlutterSpread * hz, 0.003, 0.03);
        var fluttering = new ActivityEnvelope(rhythm, "atrial_flutter");
        if (fluttering.Count > 0 && values[AtrialKeys.FlutterMv] > 0)
        {
            double[] sawtooth = Sawtooth(sign * values[AtrialKeys.FlutterMv]);
            Flutter = new ActivityWave(fluttering, FlutterPhase, isSteady: false, [1, 2, 3, 4], sawtooth, new double[4]);
        }
    }

    /// <summary>Fibrillation waves; null when the rhythm never has any.</summary>
    public ActivityWave? Fibrillation { get; }

    /// <summary>Flutter waves; null when the rhythm never has any.</summary>
    public ActivityWave? Flutter { get; }

    /// <summary>Phase of the flutter waves [turns]; there whether or not the rhythm has any.</summary>
    public WanderingPhase FlutterPhase { get; }

    /// <summary>When the phase of flutter is a number of whole turns: the middle of a wave's fast rise.</summary>
    /// <param name="n">Number of the wave; negative ones lie before time 0.</param>
    /// <returns>The time [s], solved to 1 ns or better.</returns>
    public double SecondsOfFlutterWave(long n)
    {
        // The frequency is its mean within 2 %, so each step leaves 2 % of the distance at most.
        double seconds = n / FlutterPhase.FrequencyHz;
        for (int i = 0; i < 30; i++)
        {
            double step = (n - FlutterPhase.Turns(seconds)) / FlutterPhase.FrequencyHz;
            seconds += step;
            if (Math.Abs(step) < 1e-9)
            {
                break;
            }
        }

        return seconds;
    }

    // Factors of the harmonics, so that highest and lowest value lie the stated height apart.
    private static double[] Sawtooth(double peakToPeakMv)
    {
        double[] factors = new double[4];
        for (int i = 0; i < factors.Length; i++)
        {
            int l = i + 1;
            PortableMath.SinCosTurns(l / 10.0, out double sin, out _);
            factors[i] = sin / (Math.PI * l / 5) / l;
        }

        double highest = 0;
        for (int i = 0; i < 4096; i++)
        {
            double sum = 0;
            for (int k = 0; k < factors.Length; k++)
            {
                PortableMath.SinCosTurns((k + 1) * i / 4096.0, out double sin, out _);
                sum += factors[k] * sin;
            }

            highest = Math.Max(highest, sum);
        }

        for (int i = 0; i < factors.Length; i++)
        {
            factors[i] *= peakToPeakMv * 0.5 / highest;
        }

        return factors;
    }
}
