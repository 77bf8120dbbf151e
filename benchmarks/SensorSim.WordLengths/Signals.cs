// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests;
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.WordLengths;

/// <summary>The records of the study and how a detector did on them.</summary>
internal static class Signals
{
    /// <summary>Sampling rate of the ECG [Hz].</summary>
    public const int EcgRateHz = 250;

    /// <summary>Sampling rate of the light [Hz].</summary>
    public const int LightRateHz = 100;

    private const double DurationS = 180;
    private const double LeadInS = 10;
    private const int FirstSeed = 5001;
    private const int Records = 4;

    /// <summary>All beats of one noise level.</summary>
    /// <param name="isNoisy">12 dB of white noise, or none.</param>
    /// <param name="bits">Bits of the converter, whose range is ±5 mV: R peaks of 1 mV take a tenth of it.</param>
    /// <param name="detect">From codes to times of R peaks [s].</param>
    public static TwinScore Ecg(bool isNoisy, int bits, Func<int[], double[]> detect)
    {
        var score = default(TwinScore);
        for (int i = 0; i < Records; i++)
        {
            // 12 dB by the noise-stress definition: rms = peak-to-peak of the QRS (1.2 mV) / 2√2 / 10^(12/20).
            var ecg = new SyntheticEcg
            {
                RateHz = EcgRateHz,
                MicrovoltsPerCode = Math.ScaleB(10_000, -bits),
                RateBpm = 58 + (13 * i),
                EctopicShare = 0.08,
                NoiseMillivolts = isNoisy ? 0.107 : 0,
            };
            int[] codes = ecg.Make(DurationS, FirstSeed + i);
            score += TwinScore.Of([.. ecg.PeaksS], detect(codes), LeadInS, DurationS - 1);
        }

        return score;
    }

    /// <summary>All pulses of one noise level.</summary>
    /// <param name="isNoisy">36 dB of white noise, or none.</param>
    /// <param name="bits">Bits of the converter: light at half of its range, pulses of 1 % of that.</param>
    /// <param name="detect">From codes to times of feet [s].</param>
    public static TwinScore Light(bool isNoisy, int bits, Func<int[], double[]> detect)
    {
        var score = default(TwinScore);
        for (int i = 0; i < Records; i++)
        {
            var light = new SyntheticPulse
            {
                RateHz = LightRateHz,
                BeatS = 0.74 + (0.097 * i),
                OffsetS = 0.2137 + (0.0031 * i),
                AmplitudeCodes = Math.ScaleB(0.01, bits - 1),
                SnrDb = isNoisy ? 36 : 999,
                BreathingShare = 0.1,
            };
            int[] codes = light.Make(DurationS, FirstSeed + i);
            double[] feet = [.. Enumerable.Range(0, (int)(DurationS / light.BeatS)).Select(k => light.OffsetS + ((k + SyntheticPulse.FootFraction) * light.BeatS))];
            score += TwinScore.Of(feet, detect(codes), LeadInS, DurationS - 1);
        }

        return score;
    }
}
