// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Reads the requirements of a vector plan.</summary>
internal static class PlanRequirementReader
{
    /// <summary>The requirements, as far as they are sound.</summary>
    /// <param name="tables">Their tables.</param>
    public static IReadOnlyList<PlannedRequirement> Read(IReadOnlyList<KeyTable> tables)
    {
        var found = new List<PlannedRequirement>();
        var lines = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (KeyTable table in tables)
        {
            if (One(table) is not PlannedRequirement requirement)
            {
                continue;
            }

            if (!lines.TryAdd(requirement.Id, Line(table)))
            {
                table.Add(PlanRequirementKeys.Id, $"requirement.id = \"{requirement.Id}\" stands twice, first in line {lines[requirement.Id]}; each requirement has a name of its own");
            }

            found.Add(requirement);
        }

        return found;
    }

    private static int Line(KeyTable table) => table.PlaceOf(PlanRequirementKeys.Id)!.Value.Start.Line + 1;

    private static PlannedRequirement? One(KeyTable table)
    {
        foreach (KeyDefinition key in new KeyDefinition[] { PlanRequirementKeys.Id, PlanRequirementKeys.Text, PlanRequirementKeys.Clause, PlanRequirementKeys.Kind, PlanRequirementKeys.Rule })
        {
            table.Require(key);
        }

        string id = table.Text(PlanRequirementKeys.Id);
        if (!PlanNames.IsId(id) && id.Length > 0)
        {
            table.Add(PlanRequirementKeys.Id, $"requirement.id = \"{id}\" must be letters, digits, hyphens, dots and underscores of ASCII, a letter or digit first");
        }

        string text = table.Text(PlanRequirementKeys.Text);
        string clause = table.Text(PlanRequirementKeys.Clause);
        MarkKind? kind = Kind(table);
        ChannelName? channel = Channel(table);
        RequirementRule rule = RequirementRules.Of(table.Word(PlanRequirementKeys.Rule));
        CheckLimits(table, rule);
        if (kind is MarkKind known && table.IsSound)
        {
            CheckKind(table, rule, known);
        }

        return !table.IsSound ? null : new PlannedRequirement
        {
            Id = id,
            Text = text,
            Clause = clause,
            Channel = channel,
            Kind = kind!.Value,
            Rule = rule,
            WindowMs = table.Number(PlanRequirementKeys.WindowMs),
            SensitivityMin = table.Given(PlanRequirementKeys.SensitivityMin),
            PositivePredictivityMin = table.Given(PlanRequirementKeys.PositivePredictivityMin),
            ErrorMax = table.Given(PlanRequirementKeys.ErrorMax),
            ErrorPercentMax = table.Given(PlanRequirementKeys.ErrorPercentMax),
            ShareMin = table.Given(PlanRequirementKeys.ShareMin),
            FirstWithinS = table.Given(PlanRequirementKeys.FirstWithinS),
            GraceS = table.Number(PlanRequirementKeys.GraceS),
            WithinS = table.Given(PlanRequirementKeys.WithinS),
            LatencyMsMax = table.Given(PlanRequirementKeys.LatencyMsMax),
        };
    }

    private static void CheckLimits(KeyTable table, RequirementRule rule)
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
                RequireOne(table, PlanRequirementKeys.ErrorMax, PlanRequirementKeys.ErrorPercentMax, PlanRequirementKeys.ShareMin, PlanRequirementKeys.FirstWithinS);
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
    }

    private static void RequireOne(KeyTable table, params NumberKey[] keys)
    {
        if (!keys.Any(table.Has))
        {
            table.Add(PlanRequirementKeys.Rule, $"requirement.rule = \"{table.Word(PlanRequirementKeys.Rule)}\" asks nothing without a limit; give {string.Join(" or ", keys.Select(k => k.Key))}");
        }
    }

    // Only of these does truth say where they lie, or what their value is.
    private static void CheckKind(KeyTable table, RequirementRule rule, MarkKind kind)
    {
        IReadOnlyList<MarkKind>? judged = rule switch
        {
            RequirementRule.Marks or RequirementRule.Prompt => JudgedKinds.Events,
            RequirementRule.Readings => JudgedKinds.Readings,
            RequirementRule.Shown => JudgedKinds.Shown,
            _ => null,
        };
        if (judged is not null && !judged.Contains(kind))
        {
            table.Add(
                PlanRequirementKeys.Kind,
                $"requirement.kind = \"{kind.Text()}\" cannot be judged by rule = \"{rule.Text()}\"; it can be {string.Join(", ", judged.Select(k => k.Text()))}");
        }
    }

    private static MarkKind? Kind(KeyTable table)
    {
        if (table.Value(PlanRequirementKeys.Kind) is not ValueSyntax value)
        {
            return null;
        }

        string word = value is StringValueSyntax text ? text.Value ?? "" : "";
        if (MarkKinds.TryParse(word, out MarkKind kind))
        {
            return kind;
        }

        string nearest = NearestName.Find(word, MarkKinds.All.Select(k => k.Text));
        table.Add(value.Span, $"requirement.kind = {ValueReader.Shown(value)} is no kind of mark; the nearest is \"{nearest}\"");
        return null;
    }

    private static ChannelName? Channel(KeyTable table) =>
        table.Value(PlanRequirementKeys.Channel) is ValueSyntax value ? PlanNames.Channel(table, PlanRequirementKeys.Channel, value) : null;
}
