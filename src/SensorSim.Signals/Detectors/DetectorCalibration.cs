// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Detectors;

/// <summary>What a detector is told of its sensor and its wearer; whoever tells it need not know the detector. Parts that are not told are null.</summary>
public sealed record DetectorCalibration
{
    /// <summary>From ratio of ratios to saturation; null: the detector's own.</summary>
    public IReadOnlyList<OxygenPair>? Oxygen { get; init; }

    /// <summary>Calibration of the pressure; null: there is none.</summary>
    public PressureCurve? Pressure { get; init; }

    /// <summary>What the trend of the pressure is looked for with; null: the detector's own.</summary>
    public TrendSearch? Trend { get; init; }

    /// <summary>Local time of day at the start of the stream [h].</summary>
    public double TimeOfDayH { get; init; }
}

/// <summary>One pair of an oxygen table.</summary>
/// <param name="Ratio">Ratio of ratios, red over infrared.</param>
/// <param name="SaturationPercent">Saturation [%].</param>
public readonly record struct OxygenPair(double Ratio, double SaturationPercent);

/// <summary>One cuff measurement and what the sensor read meanwhile.</summary>
/// <param name="ArrivalMs">Arrival time, R peak to foot by tangents [ms].</param>
/// <param name="SystolicMmhg">Systolic pressure [mmHg].</param>
/// <param name="DiastolicMmhg">Diastolic pressure [mmHg].</param>
public sealed record CuffMeasurement(double ArrivalMs, double SystolicMmhg, double DiastolicMmhg)
{
    /// <summary>Spread of the single beats' arrival times, as a standard deviation [ms]; null when not known.</summary>
    public double? SpreadMs { get; init; }

    /// <summary>Heart rate [bpm]; null when not known.</summary>
    public double? RateBpm { get; init; }

    /// <summary>Age at the start of the stream [days].</summary>
    public double AgeDays { get; init; }
}

/// <summary>Pressure from arrival time: form of the curve, cuff measurements, and what differs from the detector's own. Null: as the detector has it.</summary>
/// <param name="Model">Form of the curve, one of <see cref="Models"/>.</param>
/// <param name="Cuffs">One or two measurements, the one at rest first.</param>
public sealed record PressureCurve(string Model, IReadOnlyList<CuffMeasurement> Cuffs)
{
    /// <summary>Words of the forms.</summary>
    public static IReadOnlyList<string> Models { get; } = ["linear", "logarithmic", "inverse", "inverse_square", "pulse_pressure"];

    /// <summary>Slope of systolic pressure [mmHg/ms], below 0; one measurement.</summary>
    public double? SlopeMmhgPerMs { get; init; }

    /// <summary>Elasticity ζ of the arteries [1/mmHg]; one measurement.</summary>
    public double? ElasticityPerMmhg { get; init; }

    /// <summary>Slope of diastolic pressure as a share of the systolic one; one measurement.</summary>
    public double? DiastolicShare { get; init; }

    /// <summary>Systolic pressure for each bpm above the first measurement's rate [mmHg/bpm].</summary>
    public double? SystolicMmhgPerBpm { get; init; }

    /// <summary>Diastolic pressure for each bpm above the first measurement's rate [mmHg/bpm].</summary>
    public double? DiastolicMmhgPerBpm { get; init; }

    /// <summary>Age from which on nothing is given [days].</summary>
    public double? ValidDays { get; init; }

    /// <summary>How far beyond the measured pressures values are given [mmHg].</summary>
    public double? ReachMmhg { get; init; }
}

/// <summary>What a trend is looked for with. Null: as the detector has it.</summary>
public sealed record TrendSearch
{
    /// <summary>Days between two false alarms, on average.</summary>
    public double? FalseAlarmDays { get; init; }

    /// <summary>Days with readings before a change may be told.</summary>
    public double? LearningDays { get; init; }

    /// <summary>Systolic pressure for each bpm away from the usual rate that is taken off [mmHg/bpm].</summary>
    public double? SystolicMmhgPerBpm { get; init; }

    /// <summary>Readings at a rate this far above the usual one are not at rest and do not count [bpm].</summary>
    public double? RestMarginBpm { get; init; }
}
