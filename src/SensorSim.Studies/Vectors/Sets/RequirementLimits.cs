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
        string unit = MarkKinds.All.First(k => k.Kind == requirement.Kind).ValueUnit;
        var parts = new List<string>();
        if (requirement.Rule is RequirementRule.Marks or RequirementRule.Prompt)
        {
            parts.Add(FormattableString.Invariant($"within {requirement.WindowMs:R} ms"));
        }

        Add(requirement.SensitivityMin, v => FormattableString.Invariant($"sensitivity at least {v:R}"));
        Add(requirement.PositivePredictivityMin, v => FormattableString.Invariant($"positive predictivity at least {v:R}"));
        Add(requirement.ErrorMax, v => FormattableString.Invariant($"error at most {v:R} {unit}"));
        Add(requirement.ErrorPercentMax, v => FormattableString.Invariant($"error at most {v:R} %"));
        Add(requirement.ShareMin, v => FormattableString.Invariant($"share at least {v:R}"));
        Add(requirement.FirstWithinS, v => FormattableString.Invariant($"first within {v:R} s"));
        Add(requirement.WithinS, v => FormattableString.Invariant($"within {v:R} s"));
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
