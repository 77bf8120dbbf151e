// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Streams;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Reads what a case of a vector plan has lists of.</summary>
internal static class CaseListReader
{
    /// <summary>The requirements that hold for the case, in the plan's order.</summary>
    public static IReadOnlyList<PlannedRequirement> Requirements(KeyTable table, IReadOnlyList<PlannedRequirement> all)
    {
        var found = new HashSet<string>(StringComparer.Ordinal);
        foreach (ValueSyntax item in PlanNames.Items(table, PlanCaseKeys.Requirements) ?? [])
        {
            string id = item is StringValueSyntax text ? text.Value ?? "" : "";
            if (!all.Any(r => r.Id == id))
            {
                string right = all.Count == 0 ? "the plan has none, add [[requirement]]" : $"the nearest is \"{NearestName.Find(id, all.Select(r => r.Id))}\"";
                table.Add(item.Span, $"case.requirements has {ValueReader.Shown(item)}, which is no requirement of the plan; {right}");
            }
            else if (!found.Add(id))
            {
                table.Add(item.Span, $"case.requirements has \"{id}\" twice; each may stand once");
            }
        }

        return [.. all.Where(r => found.Contains(r.Id))];
    }

    /// <summary>The forms in which the samples are shipped.</summary>
    public static IReadOnlyList<StimulusForm> Stimulus(KeyTable table)
    {
        if (PlanNames.Items(table, PlanCaseKeys.Stimulus) is not IReadOnlyList<ValueSyntax> items)
        {
            return [StimulusForm.Bdf, StimulusForm.Raw];
        }

        var found = new SortedSet<StimulusForm>();
        foreach (ValueSyntax item in items)
        {
            string word = item is StringValueSyntax text ? text.Value ?? "" : "";
            if (!StimulusForms.Words.Contains(word, StringComparer.Ordinal) || !found.Add(StimulusForms.Of(word)))
            {
                table.Add(item.Span, $"case.stimulus has {ValueReader.Shown(item)}; it must be {PlanCaseKeys.Stimulus.Allowed}, each at most once");
            }
        }

        return [.. found];
    }

    /// <summary>The stretches in which nothing may be given.</summary>
    public static IReadOnlyList<WithheldStretch> Withhold(KeyTable table, double durationS)
    {
        var found = new List<WithheldStretch>();
        double last = 0;
        foreach (ValueSyntax item in PlanNames.Items(table, PlanCaseKeys.WithholdS) ?? [])
        {
            double?[] ends = item is ArraySyntax pair ? [.. pair.Items.Select(i => ValueReader.Number(i.Value!))] : [];
            if (ends is not [double from, double to] || !(from >= last && to > from && to <= durationS))
            {
                table.Add(item.Span, string.Create(
                    CultureInfo.InvariantCulture,
                    $"case.withhold_s has {ValueReader.Shown(item)}; each must be [from, to] in seconds, from at least {last} (the end of the one before), to above from and at most {durationS}, the length of the case"));
                continue;
            }

            found.Add(new WithheldStretch(from, to));
            last = to;
        }

        return found;
    }

    /// <summary>The headers of a case.</summary>
    public static IReadOnlyList<PlannedHeader> Headers(IReadOnlyList<KeyTable> tables, string caseName)
    {
        var found = new List<PlannedHeader>();
        foreach (KeyTable table in tables)
        {
            table.Require(PlanHeaderKeys.Channels);
            string name = table.Has(PlanHeaderKeys.Name) ? PlanNames.Folder(table, PlanHeaderKeys.Name) : caseName;
            double bits = table.Number(PlanHeaderKeys.Bits);
            if (bits is not (16 or 32))
            {
                table.Add(PlanHeaderKeys.Bits, FormattableString.Invariant($"case.header.bits = {bits} must be 16 or 32"));
            }

            if (found.Any(h => h.Name == name))
            {
                table.Add(PlanHeaderKeys.Name, $"two headers of the case are named \"{name}\"; give each a name of its own: name = \"{caseName}-slow\"");
            }

            found.Add(new PlannedHeader
            {
                Name = name,
                Channels = Channels(table),
                Bits = (int)bits,
                KeepEvery = (int)table.Number(PlanHeaderKeys.KeepEvery),
                MaxBytes = (long)table.Number(PlanHeaderKeys.MaxBytes),
            });
        }

        return found;
    }

    private static IReadOnlyList<ChannelName> Channels(KeyTable table)
    {
        var found = new SortedSet<ChannelName>();
        IReadOnlyList<ValueSyntax>? items = PlanNames.Items(table, PlanHeaderKeys.Channels);
        if (items is { Count: 0 })
        {
            table.Add(PlanHeaderKeys.Channels, $"case.header.channels must be {PlanHeaderKeys.Channels.Allowed}, at least one");
        }

        foreach (ValueSyntax item in items ?? [])
        {
            if (PlanNames.Channel(table, PlanHeaderKeys.Channels, item) is ChannelName channel && !found.Add(channel))
            {
                table.Add(item.Span, $"case.header.channels has \"{channel.Text()}\" twice; each may stand once");
            }
        }

        return [.. found];
    }

    /// <summary>The known deviations of a case.</summary>
    public static IReadOnlyList<PlannedDeviation> Deviations(IReadOnlyList<KeyTable> tables, IReadOnlyList<PlannedRequirement> own, string caseName)
    {
        var found = new List<PlannedDeviation>();
        foreach (KeyTable table in tables)
        {
            table.Require(PlanDeviationKeys.Requirement);
            table.Require(PlanDeviationKeys.Reason);
            string id = table.Text(PlanDeviationKeys.Requirement);
            string reason = table.Text(PlanDeviationKeys.Reason);
            if (table.IsSound && own.All(r => r.Id != id))
            {
                string right = own.Count == 0 ? "the case has none" : $"the nearest is \"{NearestName.Find(id, own.Select(r => r.Id))}\"";
                table.Add(PlanDeviationKeys.Requirement, $"case.deviation.requirement = \"{id}\" is no requirement of the case {caseName}; {right}");
            }
            else if (table.IsSound && found.Any(d => d.RequirementId == id))
            {
                table.Add(PlanDeviationKeys.Requirement, $"two deviations of the case {caseName} are from \"{id}\"; keep one, with the whole reason");
            }

            found.Add(new PlannedDeviation(id, reason));
        }

        return found;
    }
}
