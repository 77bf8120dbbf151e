// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Requirements;

/// <summary>Every requirement that can be set under <c>[requirements]</c>; what is not set is not required.</summary>
public static class RequirementKeys
{
    /// <summary>Every requirement.</summary>
    public static IReadOnlyList<RequirementDefinition> All { get; } = [.. Events(), .. Readings()];

    private static IEnumerable<RequirementDefinition> Events()
    {
        foreach (MarkKind kind in new[] { MarkKind.RPeak, MarkKind.PulseFootTangent })
        {
            string text = kind.Text();
            yield return Share(kind, RequiredFigure.Sensitivity, $"{text}_sensitivity_min", "Sensitivity");
            yield return Share(kind, RequiredFigure.PositivePredictivity, $"{text}_positive_predictivity_min", "Positive predictivity");
            yield return Limit(kind, RequiredFigure.TimingBias, $"{text}_timing_bias_ms_max", "ms", "Magnitude of the timing bias");
            yield return Limit(kind, RequiredFigure.TimingSd, $"{text}_timing_sd_ms_max", "ms", "Standard deviation of the timing error");
            yield return Limit(kind, RequiredFigure.TimingP95, $"{text}_timing_p95_ms_max", "ms", "95th percentile of the magnitude of the timing error");
        }
    }

    private static IEnumerable<RequirementDefinition> Readings()
    {
        foreach ((MarkKind kind, string quantity, string unit) in new[]
        {
            (MarkKind.HeartRateBpm, "heart_rate", "bpm"),
            (MarkKind.ArrivalTimeMs, "arrival_time", "ms"),
            (MarkKind.Spo2Percent, "spo2", "points"),
        })
        {
            yield return Limit(kind, RequiredFigure.ReadingBias, $"{quantity}_bias_{unit}_max", unit, "Magnitude of the bias");
            yield return Limit(kind, RequiredFigure.ReadingSd, $"{quantity}_sd_{unit}_max", unit, "Standard deviation of the error");
            yield return Limit(kind, RequiredFigure.ReadingRms, $"{quantity}_rms_{unit}_max", unit, "Root mean square of the error");
            yield return Share(kind, RequiredFigure.ReadingAvailableShare, $"{quantity}_available_share_min", "Share of usable time with a reading");
            yield return Ratio(kind, RequiredFigure.ReadingWrongShare, $"{quantity}_wrong_share_max", "Share of judged readings that are wrong");
            yield return Limit(kind, RequiredFigure.ReadingFirst, $"{quantity}_first_reading_s_max", "s", "Time to the first reading, lead-in included,");
        }

        foreach ((MarkKind kind, string quantity) in new[] { (MarkKind.SystolicMmhg, "systolic"), (MarkKind.DiastolicMmhg, "diastolic") })
        {
            yield return Limit(kind, RequiredFigure.ReadingBias, $"{quantity}_bias_mmhg_max", "mmHg", "Magnitude of the bias");
            yield return Limit(kind, RequiredFigure.ReadingSd, $"{quantity}_sd_mmhg_max", "mmHg", "Standard deviation of the error");
        }
    }

    private static RequirementDefinition Share(MarkKind kind, RequiredFigure figure, string key, string what) =>
        new(Key(key, "", $"{what} of {kind.Text()}, at least.", 1), kind, figure);

    private static RequirementDefinition Ratio(MarkKind kind, RequiredFigure figure, string key, string what) =>
        new(Key(key, "", $"{what} of {kind.Text()}, at most.", 1), kind, figure);

    private static RequirementDefinition Limit(MarkKind kind, RequiredFigure figure, string key, string unit, string what) =>
        new(Key(key, unit, $"{what} of {kind.Text()}, at most.", 1e6), kind, figure);

    private static NumberKey Key(string key, string unit, string meaning, double maximum) => new()
    {
        Name = $"requirements.{key}",
        Unit = unit,
        Meaning = meaning + " Not met: exit code 1. Not set: not required.",
        Source = "Set by whoever writes the scenario.",
        Minimum = 0,
        Maximum = maximum,
        Default = 0,
        HasDefault = false,
    };
}
