// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Vectors.Sets;

/// <summary>Words for readers of a set: its index and its pictures say the same.</summary>
public static class SetWords
{
    // Numbers as in the value of a gate_shut mark of the library of this project.
    private static readonly string[] s_reasons =
        ["none", "waiting", "no contact", "saturated", "no samples", "movement", "room light", "irregular", "too weak"];

    private static readonly string[] s_endings = ["_bpm", "_ms", "_percent", "_mmhg", "_per_min"];

    /// <summary>Why a gate is shut, by the number that its mark carries.</summary>
    public static IReadOnlyList<string> GateReasons => s_reasons;

    /// <summary>Why a gate is shut; of an unknown number the number.</summary>
    /// <param name="value">Value of the mark.</param>
    public static string GateReason(double value) =>
        value == Math.Floor(value) && value >= 0 && value < s_reasons.Length ? s_reasons[(int)value] : FormattableString.Invariant($"reason {value:R}");

    /// <summary>How hard a case is, so that nobody takes it for a verdict.</summary>
    /// <param name="level">A defined level.</param>
    public static string Level(CaseLevel level) => level switch
    {
        CaseLevel.Pass => "easy",
        CaseLevel.NearLimit => "near the limit",
        _ => "must be refused",
    };

    /// <summary>A kind in words, without its unit.</summary>
    /// <param name="kind">A defined kind.</param>
    public static string Kind(MarkKind kind)
    {
        string text = kind.Text();
        string ending = s_endings.FirstOrDefault(e => text.EndsWith(e, StringComparison.Ordinal)) ?? "";
        return text[..^ending.Length].Replace('_', ' ');
    }

    /// <summary>Unit of a kind's value as a reader writes it; empty for none.</summary>
    /// <param name="kind">A defined kind.</param>
    public static string Unit(MarkKind kind) => kind.Info().ValueUnit switch { "per_min" or "bpm" => "per minute", "reason" => "", string unit => unit };
}
