// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Whether the limits of a requirement fit its rule and its kind.</summary>
internal static class RequirementLimits
{
    /// <summary>Reports limits that are out of range, that say nothing under the rule, or that are missing.</summary>
    public static void Check(KeyTable table, RequirementRule rule)
    {
        if (!table.Has(PlanRequirementKeys.Rule))
        {
            return;
        }

        IReadOnlyList<NumberKey> own = PlanRequirementKeys.Of(rule);
        foreach (NumberKey key in PlanRequirementKeys.All.OfType<NumberKey>())
        {
            // A limit out of its range is told here, once.
            _ = table.Given(key);
            if (!own.Contains(key))
            {
                string[] rules = [.. RequirementRules.Words.Where(w => PlanRequirementKeys.Of(RequirementRules.Of(w)).Contains(key))];
                table.Refuse(key, $"rule = \"{string.Join("\" and rule = \"", rules)}\"");
            }
        }

        switch (rule)
        {
            case RequirementRule.Marks:
                RequireOne(table, PlanRequirementKeys.SensitivityMin, PlanRequirementKeys.PositivePredictivityMin);
                break;
            case RequirementRule.Readings:
                RequireOne(table, PlanRequirementKeys.ErrorMax, PlanRequirementKeys.ErrorPercentMax, PlanRequirementKeys.Low, PlanRequirementKeys.ShareMin, PlanRequirementKeys.FirstWithinS);
                CheckLowAndHigh(table);
                break;
            case RequirementRule.Shown:
                table.Require(PlanRequirementKeys.WithinS, " for rule = \"shown\"");
                break;
            case RequirementRule.Prompt:
                table.Require(PlanRequirementKeys.LatencyMsMax, " for rule = \"prompt\"");
                break;
            default:
                break;
        }

        InOrder(table, PlanRequirementKeys.FromS, PlanRequirementKeys.UntilS, mayBeEqual: false);
    }

    /// <summary>Reports a kind of which truth does not say what the rule asks.</summary>
    public static void CheckKind(KeyTable table, RequirementRule rule, MarkKind kind)
    {
        IReadOnlyList<MarkKind>? judged = rule switch
        {
            RequirementRule.Marks or RequirementRule.Prompt => JudgedKinds.Events,
            RequirementRule.Readings when !table.Has(PlanRequirementKeys.Low) && HasError(table) => JudgedKinds.Readings,
            _ => null,
        };
        if (judged is not null && !judged.Contains(kind))
        {
            string otherwise = rule == RequirementRule.Readings ? ", or any with low and high" : "";
            table.Add(
                PlanRequirementKeys.Kind,
                $"requirement.kind = \"{kind.Text()}\": truth does not say what rule = \"{rule.Text()}\" asks of it; it can be {string.Join(", ", judged.Select(k => k.Text()))}{otherwise}");
        }

        if (rule == RequirementRule.Readings && kind.Info().ValueUnit.Length == 0)
        {
            table.Add(PlanRequirementKeys.Kind, $"requirement.kind = \"{kind.Text()}\" has no value; rule = \"readings\" is for kinds with one");
        }
    }

    private static bool HasError(KeyTable table) => table.Has(PlanRequirementKeys.ErrorMax) || table.Has(PlanRequirementKeys.ErrorPercentMax);

    private static void CheckLowAndHigh(KeyTable table)
    {
        if (table.Has(PlanRequirementKeys.Low) != table.Has(PlanRequirementKeys.High))
        {
            NumberKey there = table.Has(PlanRequirementKeys.Low) ? PlanRequirementKeys.Low : PlanRequirementKeys.High;
            table.Add(there, $"{there.Name} stands alone; low and high go together");
        }

        foreach (NumberKey error in new[] { PlanRequirementKeys.ErrorMax, PlanRequirementKeys.ErrorPercentMax, PlanRequirementKeys.BeatsMin, PlanRequirementKeys.BeatsMax })
        {
            if (table.Has(PlanRequirementKeys.Low))
            {
                table.Refuse(error, "readings that are held against truth; low and high stand in its place");
            }
            else if (!HasError(table) && table.Has(error))
            {
                table.Refuse(error, "error_max and error_percent_max");
            }
        }

        if (table.Has(PlanRequirementKeys.StandsS) && !table.Has(PlanRequirementKeys.ShareMin))
        {
            table.Refuse(PlanRequirementKeys.StandsS, "share_min");
        }

        InOrder(table, PlanRequirementKeys.Low, PlanRequirementKeys.High, mayBeEqual: true);
        InOrder(table, PlanRequirementKeys.BeatsMin, PlanRequirementKeys.BeatsMax, mayBeEqual: true);
    }

    private static void InOrder(KeyTable table, NumberKey low, NumberKey high, bool mayBeEqual)
    {
        if (table.IsSound && table.Given(low) is double a && table.Given(high) is double b && (a > b || (a == b && !mayBeEqual)))
        {
            table.Add(high, FormattableString.Invariant($"{high.Name} = {b} must be {(mayBeEqual ? "at least" : "above")} {low.Name} = {a}"));
        }
    }

    private static void RequireOne(KeyTable table, params NumberKey[] keys)
    {
        if (!keys.Any(table.Has))
        {
            table.Add(PlanRequirementKeys.Rule, $"requirement.rule = \"{table.Word(PlanRequirementKeys.Rule)}\" asks nothing without a limit; give {string.Join(" or ", keys.Select(k => k.Key))}");
        }
    }
}
