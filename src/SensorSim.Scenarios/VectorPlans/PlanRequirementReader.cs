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
        foreach (KeyDefinition key in PlanRequirementKeys.Required)
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
        RequirementLimits.Check(table, rule);
        if (kind is MarkKind known && table.IsSound)
        {
            RequirementLimits.CheckKind(table, rule, known);
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
            Low = table.Given(PlanRequirementKeys.Low),
            High = table.Given(PlanRequirementKeys.High),
            BeatsMin = (int?)table.Given(PlanRequirementKeys.BeatsMin),
            BeatsMax = (int?)table.Given(PlanRequirementKeys.BeatsMax),
            StandsS = table.Number(PlanRequirementKeys.StandsS),
            Value = table.Given(PlanRequirementKeys.Value),
            FromS = table.Given(PlanRequirementKeys.FromS),
            UntilS = table.Given(PlanRequirementKeys.UntilS),
            GraceS = table.Number(PlanRequirementKeys.GraceS),
            WithinS = table.Given(PlanRequirementKeys.WithinS),
            LatencyMsMax = table.Given(PlanRequirementKeys.LatencyMsMax),
        };
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
