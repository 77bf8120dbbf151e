// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Pressure;

/// <summary>Pre-ejection period: from QRS onset to the opening of the aortic valve.</summary>
/// <remarks>
/// Linear in heart rate (Weissler et al. 1968, from memory), plus the shift by contractility, plus a slow variation: a Gaussian band, 0.06 Hz
/// with standard deviation 0.012 Hz, nearly all of it between periods of 10 and 30 s. Its variance over long times is exactly the knob's.
/// </remarks>
public sealed class EjectionModel
{
    /// <summary>No draw of the slow variation exceeds this many standard deviations: sixteen sines, all at their crest.</summary>
    public const double LargestVariation = 5.656854249492381; // 16 √(2/16)

    private const double VariationHz = 0.06;
    private const double VariationWidthHz = 0.012;
    private const double LowestBpm = 30;
    private const double HighestBpm = 180;
    private const double ReferenceBpm = 60;

    private readonly Course _pepMs;
    private readonly Course _contractilityMs;
    private readonly Course _variationMs;
    private readonly GaussianBand _variation;
    private readonly double _slopeMsPerBpm;

    /// <summary>Creates the period of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public EjectionModel(KeyValues values, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(values);
        _pepMs = values.Course(EjectionKeys.PepMs);
        _contractilityMs = values.Course(EjectionKeys.ContractilityMs);
        _variationMs = values.Course(EjectionKeys.PepVariationMs);
        _slopeMsPerBpm = values[EjectionKeys.PepSlopeMsPerBpm];
        _variation = new GaussianBand(new KeyedRandom(seed, "ejection.pep_variation"), VariationHz, VariationWidthHz, 1);
    }

    /// <summary>The period from QRS onset [s].</summary>
    /// <param name="seconds">Body time [s].</param>
    /// <param name="rateBpm">Heart rate [bpm].</param>
    public double FromQrsOnsetSeconds(double seconds, double rateBpm)
    {
        double ms = _pepMs.Value(seconds) + ByRateMs(_slopeMsPerBpm, rateBpm) + _contractilityMs.Value(seconds);
        double variation = _variationMs.Value(seconds);
        return (variation == 0 ? ms : ms + (variation * _variation.Value(seconds))) * 1e-3;
    }

    /// <summary>Difference from the period at 60 bpm [ms].</summary>
    /// <param name="slopeMsPerBpm">Slope [ms/bpm].</param>
    /// <param name="rateBpm">Heart rate [bpm].</param>
    internal static double ByRateMs(double slopeMsPerBpm, double rateBpm) =>
        slopeMsPerBpm * (Math.Max(LowestBpm, Math.Min(HighestBpm, rateBpm)) - ReferenceBpm);
}
