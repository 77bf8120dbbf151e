// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Marks;

/// <summary>The one table of mark and truth kinds: text form, unit of the value, and what sort of row it is.</summary>
public static class MarkKinds
{
    private static readonly MarkKindInfo[] s_table =
    [
        new(MarkKind.RPeak, "r_peak", "mV", MarkSort.Event),
        new(MarkKind.POnset, "p_onset", "", MarkSort.Event),
        new(MarkKind.PPeak, "p_peak", "mV", MarkSort.Event),
        new(MarkKind.PEnd, "p_end", "", MarkSort.Event),
        new(MarkKind.QrsOnset, "qrs_onset", "", MarkSort.Event),
        new(MarkKind.QrsEnd, "qrs_end", "", MarkSort.Event),
        new(MarkKind.TOnset, "t_onset", "", MarkSort.Event),
        new(MarkKind.TPeak, "t_peak", "mV", MarkSort.Event),
        new(MarkKind.TEnd, "t_end", "", MarkSort.Event),
        new(MarkKind.PulseFootMinimum, "pulse_foot_minimum", "", MarkSort.Event),
        new(MarkKind.PulseFootTangent, "pulse_foot_tangent", "", MarkSort.Event),
        new(MarkKind.PulseFootSecondDerivative, "pulse_foot_second_derivative", "", MarkSort.Event),
        new(MarkKind.SteepestPoint, "steepest_point", "", MarkSort.Event),
        new(MarkKind.SystolicPeak, "systolic_peak", "", MarkSort.Event),
        new(MarkKind.DicroticNotch, "dicrotic_notch", "", MarkSort.Event),
        new(MarkKind.DiastolicPeak, "diastolic_peak", "", MarkSort.Event),
        new(MarkKind.NoPulse, "no_pulse", "", MarkSort.Event),
        new(MarkKind.PepMs, "pep_ms", "ms", MarkSort.BeatValue),
        new(MarkKind.PttMs, "ptt_ms", "ms", MarkSort.BeatValue),
        new(MarkKind.PatMs, "pat_ms", "ms", MarkSort.BeatValue),
        new(MarkKind.RrMs, "rr_ms", "ms", MarkSort.BeatValue),
        new(MarkKind.HeartRateBpm, "heart_rate_bpm", "bpm", MarkSort.Reading),
        new(MarkKind.ArrivalTimeMs, "arrival_time_ms", "ms", MarkSort.Reading),
        new(MarkKind.RespirationRateBpm, "respiration_rate_bpm", "bpm", MarkSort.Reading),
        new(MarkKind.GateOpen, "gate_open", "", MarkSort.Event),
        new(MarkKind.GateShut, "gate_shut", "reason", MarkSort.Event),
        new(MarkKind.TEndTangent, "t_end_tangent", "", MarkSort.Event),
        new(MarkKind.PacingSpike, "pacing_spike", "mV", MarkSort.Event),
        new(MarkKind.PepFromQrsOnsetMs, "pep_from_qrs_onset_ms", "ms", MarkSort.BeatValue),
        new(MarkKind.SystolicMmhg, "systolic_mmhg", "mmHg", MarkSort.Reading),
        new(MarkKind.DiastolicMmhg, "diastolic_mmhg", "mmHg", MarkSort.Reading),
        new(MarkKind.MeanMmhg, "mean_mmhg", "mmHg", MarkSort.Reading),
        new(MarkKind.Spo2Percent, "spo2_percent", "%", MarkSort.Reading),
        new(MarkKind.PerfusionIndexPercent, "perfusion_index_percent", "%", MarkSort.Reading),
        new(MarkKind.HeartRateFusedBpm, "heart_rate_fused_bpm", "bpm", MarkSort.Reading),
        new(MarkKind.RrMeanMs, "rr_mean_ms", "ms", MarkSort.Reading),
        new(MarkKind.SdnnMs, "sdnn_ms", "ms", MarkSort.Reading),
        new(MarkKind.RmssdMs, "rmssd_ms", "ms", MarkSort.Reading),
        new(MarkKind.ArrivalSpotMs, "arrival_spot_ms", "ms", MarkSort.Reading),
        new(MarkKind.ArrivalSpreadMs, "arrival_spread_ms", "ms", MarkSort.Reading),
        new(MarkKind.IrregularRhythm, "irregular_rhythm", "", MarkSort.Event),
        new(MarkKind.RegularRhythm, "regular_rhythm", "", MarkSort.Event),
        new(MarkKind.JointGateOpen, "joint_gate_open", "", MarkSort.Event),
        new(MarkKind.JointGateShut, "joint_gate_shut", "reason", MarkSort.Event),
        new(MarkKind.CadencePerMin, "cadence_per_min", "per_min", MarkSort.Reading),
        new(MarkKind.PressureTrendMmhg, "pressure_trend_mmhg", "mmHg", MarkSort.Reading),
    ];

    /// <summary>Every kind, in numeric order.</summary>
    public static IReadOnlyList<MarkKindInfo> All => s_table;

    /// <summary>The row of a kind.</summary>
    /// <param name="kind">A defined kind.</param>
    public static MarkKindInfo Info(this MarkKind kind) => s_table[(int)kind];

    /// <summary>Text form, for example <c>r_peak</c>.</summary>
    /// <param name="kind">A defined kind.</param>
    public static string Text(this MarkKind kind) => s_table[(int)kind].Text;

    /// <summary>Reads a text form; exact, case-sensitive.</summary>
    /// <param name="text">Text such as <c>pulse_foot_tangent</c>.</param>
    /// <param name="kind">The kind, when the text is known.</param>
    /// <returns>Whether the text is a kind.</returns>
    public static bool TryParse(string text, out MarkKind kind)
    {
        int index = Array.FindIndex(s_table, row => string.Equals(row.Text, text, StringComparison.Ordinal));
        kind = index < 0 ? default : (MarkKind)index;
        return index >= 0;
    }
}
