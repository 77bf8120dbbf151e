// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Calibrations;

/// <summary>What a calibration file may hold. No keys of a scenario: they are the detector's, not the body's.</summary>
public static class CalibrationKeys
{
    /// <summary>Title.</summary>
    public static readonly TextKey Title = new()
    {
        Name = "calibration.title",
        Meaning = "One line that says whose calibration it is.",
        Source = "Choice of this project.",
    };

    /// <summary>Time of day at the start.</summary>
    public static readonly NumberKey TimeOfDayH = new()
    {
        Name = "calibration.time_of_day_h",
        Unit = "h",
        Meaning = "Local time of day at the start of the stream; the trend ends its days at midnight.",
        Source = "Choice of this project.",
        Minimum = 0,
        Maximum = 24,
        Default = 0,
    };

    /// <summary>Form of the curve.</summary>
    public static readonly ChoiceKey Model = new()
    {
        Name = "pressure.model",
        Meaning = "Form of the curve from arrival time to pressure.",
        Source = "Published forms; see docs/calibration.md.",
        Choices = PressureCurve.Models,
        Default = "logarithmic",
    };

    /// <summary>Slope.</summary>
    public static readonly NumberKey SlopeMmhgPerMs = new()
    {
        Name = "pressure.slope_mmhg_per_ms",
        Unit = "mmHg/ms",
        Meaning = "Slope of systolic pressure at the measurement; with one [[cuff]] only.",
        Source = "-0.3 to -1.2 at the finger (from memory), half and twice that.",
        Minimum = -2.4,
        Maximum = -0.15,
        Default = -0.5,
        HasDefault = false,
    };

    /// <summary>Elasticity.</summary>
    public static readonly NumberKey ElasticityPerMmhg = new()
    {
        Name = "pressure.elasticity_per_mmhg",
        Unit = "1/mmHg",
        Meaning = "Elasticity of the arteries, which gives the slope of one [[cuff]]; up makes it flatter.",
        Source = "Hughes 1979 gives 0.016 to 0.018 (from memory).",
        Minimum = 0.005,
        Maximum = 0.05,
        Default = 0.017,
    };

    /// <summary>Share of the diastolic slope.</summary>
    public static readonly NumberKey DiastolicShare = new()
    {
        Name = "pressure.diastolic_share",
        Meaning = "Slope of diastolic pressure as a share of the systolic one; with one [[cuff]] only.",
        Source = "As the estimator has it; see docs/calibration.md.",
        Minimum = 0,
        Maximum = 1,
        Default = 0.6,
    };

    /// <summary>Rate term, systolic.</summary>
    public static readonly NumberKey SystolicMmhgPerBpm = new()
    {
        Name = "pressure.systolic_mmhg_per_bpm",
        Unit = "mmHg/bpm",
        Meaning = "Systolic pressure for each bpm above the first measurement's rate; 0 is off.",
        Source = "Choice of this project.",
        Minimum = -5,
        Maximum = 5,
        Default = 0,
    };

    /// <summary>Rate term, diastolic.</summary>
    public static readonly NumberKey DiastolicMmhgPerBpm = new()
    {
        Name = "pressure.diastolic_mmhg_per_bpm",
        Unit = "mmHg/bpm",
        Meaning = "Diastolic pressure for each bpm above the first measurement's rate; 0 is off.",
        Source = "Choice of this project.",
        Minimum = -5,
        Maximum = 5,
        Default = 0,
    };

    /// <summary>Longest age.</summary>
    public static readonly NumberKey ValidDays = new()
    {
        Name = "pressure.valid_days",
        Unit = "days",
        Meaning = "Age of the older measurement from which on no pressure is given.",
        Source = "Wong et al. 2009: on day 84 the systolic error reaches an SD of 8 mmHg.",
        Minimum = 1,
        Maximum = 3650,
        Default = 84,
        IsWhole = true,
    };

    /// <summary>Reach.</summary>
    public static readonly NumberKey ReachMmhg = new()
    {
        Name = "pressure.reach_mmhg",
        Unit = "mmHg",
        Meaning = "How far beyond the measured systolic pressures values are given; diastolic two thirds of it.",
        Source = "As the estimator has it; see docs/calibration.md.",
        Minimum = 0,
        Maximum = 100,
        Default = 20,
    };

    /// <summary>Arrival time.</summary>
    public static readonly NumberKey ArrivalMs = new()
    {
        Name = "cuff.arrival_ms",
        Unit = "ms",
        Meaning = "Arrival time that the sensor read during the measurement, R peak to foot by tangents.",
        Source = "Arrivals that are believed; see docs/calibration.md.",
        Minimum = 80,
        Maximum = 450,
        Default = 250,
    };

    /// <summary>Systolic pressure.</summary>
    public static readonly NumberKey SystolicMmhg = new()
    {
        Name = "cuff.systolic_mmhg",
        Unit = "mmHg",
        Meaning = "Systolic pressure by the cuff.",
        Source = "Plausible range of recordings.",
        Minimum = 50,
        Maximum = 250,
        Default = 120,
    };

    /// <summary>Diastolic pressure.</summary>
    public static readonly NumberKey DiastolicMmhg = new()
    {
        Name = "cuff.diastolic_mmhg",
        Unit = "mmHg",
        Meaning = "Diastolic pressure by the cuff.",
        Source = "Plausible range of recordings.",
        Minimum = 30,
        Maximum = 160,
        Default = 80,
    };

    /// <summary>Spread.</summary>
    public static readonly NumberKey SpreadMs = new()
    {
        Name = "cuff.spread_ms",
        Unit = "ms",
        Meaning = "Spread of the single arrival times meanwhile, as a standard deviation; not given: 8 ms.",
        Source = "3 to 8 ms at rest (finger, from memory).",
        Minimum = 0.1,
        Maximum = 65,
        Default = 8,
    };

    /// <summary>Heart rate.</summary>
    public static readonly NumberKey RateBpm = new()
    {
        Name = "cuff.rate_bpm",
        Unit = "bpm",
        Meaning = "Heart rate meanwhile; must be given when pressure changes with the rate.",
        Source = "Choice of this project.",
        Minimum = 20,
        Maximum = 400,
        Default = 70,
        HasDefault = false,
    };

    /// <summary>Age.</summary>
    public static readonly NumberKey AgeDays = new()
    {
        Name = "cuff.age_days",
        Unit = "days",
        Meaning = "Age of the measurement at the start of the stream.",
        Source = "Choice of this project.",
        Minimum = 0,
        Maximum = 3650,
        Default = 0,
    };

    /// <summary>Ratios.</summary>
    public static readonly NumberKey Ratio = new()
    {
        Name = "oxygen.ratio",
        Meaning = "Ratios of ratios, red over infrared, rising: a list of 2 to 16.",
        Source = "Textbook line 110 - 25 R unless given (Webster 1997, from memory).",
        Minimum = 0.05,
        Maximum = 6.5,
        Default = 1,
        HasDefault = false,
    };

    /// <summary>Saturations.</summary>
    public static readonly NumberKey SaturationPercent = new()
    {
        Name = "oxygen.saturation_percent",
        Unit = "%",
        Meaning = "Saturation at each ratio, falling: a list as long.",
        Source = "Textbook line 110 - 25 R unless given (Webster 1997, from memory).",
        Minimum = 0,
        Maximum = 100,
        Default = 85,
        HasDefault = false,
    };

    /// <summary>False alarms.</summary>
    public static readonly NumberKey FalseAlarmDays = new()
    {
        Name = "trend.false_alarm_days",
        Unit = "days",
        Meaning = "Days between two false alarms of the trend, on average; up makes it tell later.",
        Source = "Choice of this project.",
        Minimum = 20,
        Maximum = 36500,
        Default = 365,
        IsWhole = true,
    };

    /// <summary>Learning.</summary>
    public static readonly NumberKey LearningDays = new()
    {
        Name = "trend.learning_days",
        Unit = "days",
        Meaning = "Days with readings before a change may be told.",
        Source = "Choice of this project.",
        Minimum = 5,
        Maximum = 250,
        Default = 14,
        IsWhole = true,
    };

    /// <summary>Rate term, systolic.</summary>
    public static readonly NumberKey TrendMmhgPerBpm = new()
    {
        Name = "trend.systolic_mmhg_per_bpm",
        Unit = "mmHg/bpm",
        Meaning = "Systolic pressure for each bpm away from the usual rate that the trend takes off; 0 is off.",
        Source = "Choice of this project.",
        Minimum = -5,
        Maximum = 5,
        Default = 0,
    };

    /// <summary>Margin of rest.</summary>
    public static readonly NumberKey RestMarginBpm = new()
    {
        Name = "trend.rest_margin_bpm",
        Unit = "bpm",
        Meaning = "Readings at a rate this far above the usual one are not at rest, and the trend leaves them out.",
        Source = "Choice of this project.",
        Minimum = 5,
        Maximum = 200,
        Default = 20,
        IsWhole = true,
    };

    /// <summary>Every key, section by section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        Title, TimeOfDayH,
        Ratio, SaturationPercent,
        Model, SlopeMmhgPerMs, ElasticityPerMmhg, DiastolicShare, SystolicMmhgPerBpm, DiastolicMmhgPerBpm, ValidDays, ReachMmhg,
        ArrivalMs, SystolicMmhg, DiastolicMmhg, SpreadMs, RateBpm, AgeDays,
        FalseAlarmDays, LearningDays, TrendMmhgPerBpm, RestMarginBpm,
    ];

    /// <summary>Name of the table that stands once or twice.</summary>
    public const string Cuff = "cuff";
}
