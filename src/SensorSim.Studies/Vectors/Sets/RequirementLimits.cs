// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Vectors.Sets;

/// <summary>The limits of a requirement in words.</summary>
internal static class RequirementLimits
{
    /// <summary>The words.</summary>
    /// <param name="requirement">The requirement.</param>
    public static string Of(PlannedRequirement requirement)
    {
        // An error of a percentage is one in points: "4 %" would read as a share of the value.
        string unit = requirement.Kind.Info().ValueUnit == "%" ? "points of %" : SetWords.Unit(requirement.Kind);
        var parts = new List<string>();
        if (requirement.Rule is RequirementRule.Marks or RequirementRule.Prompt)
        {
            parts.Add(FormattableString.Invariant($"within {requirement.WindowMs:R} ms"));
        }

        if (requirement is { Low: double low, High: double high })
        {
            parts.Add(FormattableString.Invariant($"{low:R} to {high:R} {SetWords.Unit(requirement.Kind)}"));
        }

        Add(requirement.Value, v => FormattableString.Invariant($"value {v:R}") + (requirement.Kind is MarkKind.GateShut or MarkKind.JointGateShut ? $" ({SetWords.GateReason(v)})" : ""));
        Add(requirement.SensitivityMin, v => FormattableString.Invariant($"sensitivity at least {v:R}"));
        Add(requirement.PositivePredictivityMin, v => FormattableString.Invariant($"positive predictivity at least {v:R}"));
        Add(requirement.ErrorMax, v => FormattableString.Invariant($"error at most {v:R} {unit}"));
        Add(requirement.ErrorPercentMax, v => FormattableString.Invariant($"error at most {v:R} %"));
        Add(requirement.ShareMin, v => FormattableString.Invariant($"share at least {v:R}"));
        Add(requirement.FirstWithinS, v => FormattableString.Invariant($"first within {v:R} s"));
        Add(requirement.WithinS, v => FormattableString.Invariant($"within {v:R} s"));
        Add(requirement.FromS, v => FormattableString.Invariant($"from {v:R} s on"));
        Add(requirement.UntilS, v => FormattableString.Invariant($"until {v:R} s"));
        Add(requirement.LatencyMsMax, v => FormattableString.Invariant($"at most {v:R} ms late"));
        if (requirement.Rule == RequirementRule.Withheld)
        {
            parts.Add(FormattableString.Invariant($"nothing after {requirement.GraceS:R} s"));
        }

        return $"{requirement.Rule.Text()}: {string.Join("; ", parts)}";

        void Add(double? limit, Func<double, string> words)
        {
            if (limit is double value)
            {
                parts.Add(words(value));
            }
        }
    }
}
