// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Rhythm;

/// <summary>The three standard deviations of the RR interval that give a wanted SDNN, RMSSD and LF/HF.</summary>
/// <remarks>
/// A fluctuation of frequency f and variance σ² adds σ² to SDNN² and 4 σ² sin²(πfT) to RMSSD², T the mean interval (definitions: Task
/// Force, Circulation 93:1043, 1996). With LF/HF = σ_slow² / σ_respiratory² this is linear in the three variances.
/// </remarks>
/// <param name="RespiratoryMs">Standard deviation at the breathing rate [ms].</param>
/// <param name="SlowMs">Standard deviation in the 0.1 Hz band [ms].</param>
/// <param name="DriftMs">Standard deviation below 0.04 Hz [ms]; NaN when the wanted values would need a negative power there.</param>
/// <param name="IsGiven">Whether a scenario asks for SDNN, RMSSD and LF/HF at all.</param>
public readonly record struct VariabilityBands(double RespiratoryMs, double SlowMs, double DriftMs, bool IsGiven)
{
    private const double SlowWidthHz = 0.01;

    // Root of the mean of f² over the 1/f band, 0.001 to 0.038 Hz: √((0.038² − 0.001²) / (2 ln 38)).
    private const double DriftHz = 0.01408;

    /// <summary>Solves for a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static VariabilityBands From(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (!values.IsSet(HeartKeys.SdnnMs) || !values.IsSet(HeartKeys.RmssdMs) || !values.IsSet(HeartKeys.LfHf))
        {
            return default;
        }

        double sdnn = values[HeartKeys.SdnnMs];
        double ratio = values[HeartKeys.LfHf];
        Shares(values, out double respiratory, out double slow, out double drift);

        // RMSSD² / 4 = respiratory · v + slow · r v + drift · (SDNN² − (1 + r) v), solved for the respiratory variance v.
        double quarter = 0.25 * values[HeartKeys.RmssdMs] * values[HeartKeys.RmssdMs];
        double variance = Math.Max(0, quarter - (drift * sdnn * sdnn)) / (respiratory + (ratio * slow) - ((1 + ratio) * drift));
        double rest = (sdnn * sdnn) - ((1 + ratio) * variance);
        return new VariabilityBands(
            Math.Sqrt(variance), Math.Sqrt(ratio * variance), rest < 0 ? double.NaN : Math.Sqrt(rest), IsGiven: true);
    }

    /// <summary>Largest RMSSD that a scenario's SDNN and LF/HF allow [ms].</summary>
    /// <param name="values">Values of the scenario.</param>
    public static double LargestRmssdMs(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        Shares(values, out double respiratory, out double slow, out _);
        double ratio = values[HeartKeys.LfHf];
        return 2 * values[HeartKeys.SdnnMs] * Math.Sqrt((respiratory + (ratio * slow)) / (1 + ratio));
    }

    /// <summary>Smallest RMSSD that a scenario's SDNN allows [ms]: everything below 0.04 Hz.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static double SmallestRmssdMs(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        Shares(values, out _, out _, out double drift);
        return 2 * values[HeartKeys.SdnnMs] * Math.Sqrt(drift);
    }

    // Mean of sin²(πfT) over each band.
    private static void Shares(KeyValues values, out double respiratory, out double slow, out double drift)
    {
        double rr = 60 / values[HeartKeys.RateBpm];
        respiratory = Share(values[BreathingKeys.RatePerMin] / 60, values[BreathingKeys.SpreadPerMin] / 60, rr);
        slow = Share(values[HeartKeys.SlowFrequencyHz], SlowWidthHz, rr);
        drift = Share(DriftHz, 0, rr);
    }

    // Over a Gaussian band of width w: ½ (1 − cos(2πfT) exp(−2π²w²T²)).
    private static double Share(double hz, double widthHz, double rr)
    {
        PortableMath.SinCosTurns(hz * rr, out _, out double cos);
        double w = Math.PI * widthHz * rr;
        return 0.5 * (1 - (cos * PortableMath.Exp(-2 * w * w)));
    }
}
