// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Pressure;

/// <summary>Figures for refusing contradictions between arrival, pre-ejection period and artery before anything is made.</summary>
public static class ArrivalLimits
{
    // Beats outside four standard deviations (one in 16,000) may rest on the floors of the model.
    private const double Deviations = 4;

    /// <summary>Longest pre-ejection period from the R peak that the knobs give, without its slow variation [ms].</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <remarks>Over the courses of all knobs; of the rate the end that gives the longer period. The R peak lies in the middle of the QRS.</remarks>
    public static double LongestPepMs(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        double slope = values[EjectionKeys.PepSlopeMsPerBpm];
        double slow = EjectionModel.ByRateMs(slope, values.Course(HeartKeys.RateBpm).Lowest);
        double fast = EjectionModel.ByRateMs(slope, values.Course(HeartKeys.RateBpm).Highest);
        double fromOnset = values.Course(EjectionKeys.PepMs).Highest
            + values.Course(EjectionKeys.ContractilityMs).Highest + Math.Max(slow, fast);
        return Math.Max(ArrivalModel.ShortestPepSeconds * 1e3, fromOnset - (values[EcgKeys.QrsMs] / 2));
    }

    /// <summary>
    /// Shortest pulse.arrival_ms that leaves a transit time after the pre-ejection period [ms]: longest period + shortest transit time + four
    /// standard deviations of spread and slow variation together. Only where the knob sets the arrival.
    /// </summary>
    /// <param name="values">Values of the scenario.</param>
    public static double LeastArrivalMs(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        double spread = values.Course(PulseKeys.ArrivalSpreadMs).Highest;
        double variation = values.Course(EjectionKeys.PepVariationMs).Highest;
        double both = Math.Sqrt((spread * spread) + (variation * variation));
        return LongestPepMs(values) + (ArrivalModel.ShortestPttSeconds * 1e3) + (Deviations * both);
    }

    /// <summary>Lowest value of pulse.arrival_ms over the scenario [ms]; to be compared with <see cref="LeastArrivalMs"/>.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static double LowestArrivalMs(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return values.Course(PulseKeys.ArrivalMs).Lowest;
    }

    /// <summary>
    /// Shortest and longest transit time that pressure and artery give [ms], waves, night and drift left out. The model
    /// holds a beat between 10 and 600 ms; a scenario should stay between 20 and 400.
    /// </summary>
    /// <param name="values">Values of the scenario.</param>
    public static (double ShortestMs, double LongestMs) TransitMs(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var tube = new ArteryTube(values);
        Course modulus = values.Course(ArteryKeys.ElasticModulusKpa);
        Course diastolic = values.Course(PressureKeys.DiastolicMmhg);
        Course pulse = values.Course(PressureKeys.PulsePressureMmhg);
        double share = values[ArteryKeys.Pressure] == "mean" ? 1.0 / 3 : 0;
        double low = diastolic.Lowest + (share * pulse.Lowest);
        double high = diastolic.Highest + (share * pulse.Highest);
        double softest = Math.Max(ArteryKeys.ElasticModulusKpa.Minimum, modulus.Lowest);
        return (1e3 * tube.TransitSeconds(high, modulus.Highest), 1e3 * tube.TransitSeconds(low, softest));
    }
}
