// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Plans;

/// <summary>Shape of the fitted curve.</summary>
public enum CurveShape
{
    /// <summary>Logistic, with a lapse.</summary>
    Logistic,

    /// <summary>Cumulative normal distribution, with a lapse.</summary>
    Probit,
}

/// <summary>How the failure point of a study is defined and found.</summary>
public sealed record FailurePointSettings
{
    /// <summary>
    /// Null: the level where performance pooled over seeds and subjects crosses the requirement. Else the level where this share of runs
    /// [0 to 1] meets it.
    /// </summary>
    public double? PassFraction { get; init; }

    /// <summary>Shape of the fitted curve.</summary>
    public CurveShape Shape { get; init; }

    /// <summary>Resamples of whole seeds and subjects for the interval.</summary>
    public int Resamples { get; init; } = 2000;

    /// <summary>Seed of the resampling.</summary>
    public ulong ResamplingSeed { get; init; } = 1;

    /// <summary>Whether runs are spent where they tell most, instead of on every point with every seed.</summary>
    public bool IsAdaptive { get; init; }

    /// <summary>Adaptive: half the width of the 95 % interval at which the search stops, in the unit of the key.</summary>
    public double Precision { get; init; }

    /// <summary>Adaptive: most runs that may be spent; null: as many as the plan has.</summary>
    public long? MostRuns { get; init; }
}
