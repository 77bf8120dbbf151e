// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Reads which files go along with a set.</summary>
internal static class AttachedReader
{
    private static readonly string[] s_own = [SetNames.Manifest, SetNames.Sidecar, SetNames.Plan, SetNames.Index];

    /// <summary>The paths.</summary>
    /// <param name="table">The table <c>[set]</c>.</param>
    /// <param name="cases">The cases, whose folders are theirs alone.</param>
    public static IReadOnlyList<string> Read(KeyTable table, IReadOnlyList<PlannedCase> cases)
    {
        var found = new List<string>();
        foreach (ValueSyntax item in PlanNames.Items(table, PlanSetKeys.Attached) ?? [])
        {
            string path = item is StringValueSyntax text ? text.Value ?? "" : "";
            if (SetNames.Fault(path) is string fault)
            {
                table.Add(item.Span, $"set.attached has {ValueReader.Shown(item)}; it {fault}");
                continue;
            }

            string first = path.Split('/')[0];
            if (s_own.Contains(path, StringComparer.OrdinalIgnoreCase) || first == SetNames.Sources || cases.Any(c => c.Name == first))
            {
                table.Add(item.Span, $"set.attached has \"{path}\", where the set puts files of its own; choose another place, for example \"codecs/{Path.GetFileName(path)}\"");
            }
            else if (found.Contains(path, StringComparer.OrdinalIgnoreCase))
            {
                table.Add(item.Span, $"set.attached has \"{path}\" twice; each may stand once");
            }
            else
            {
                found.Add(path);
            }
        }

        if (cases.FirstOrDefault(c => c.Name is SetNames.Sources or SetNames.Index or SetNames.Plan) is PlannedCase taken)
        {
            table.Add(default(SourceSpan?), $"a case is named \"{taken.Name}\", which is a name of the set's own; choose another");
        }

        return found;
    }
}
