// SPDX-License-Identifier: MIT
using SensorSim.Files.JUnit;
using SensorSim.Files.Output;
using SensorSim.Files.Tables;

namespace SensorSim.Studies.Comparisons;

/// <summary>The files of a comparison, but for its page.</summary>
public static class ComparisonFiles
{
    /// <summary>Everything that was found.</summary>
    public const string Json = "compare.json";

    /// <summary>Every difference, a table as text.</summary>
    public const string Differences = "differences.csv";

    /// <summary>What was judged, for build servers.</summary>
    public const string JUnit = "compare.xml";

    /// <summary>Writes them.</summary>
    /// <param name="folder">Takes them.</param>
    /// <param name="comparison">The comparison.</param>
    /// <param name="gate">What was judged; null: <see cref="JUnit"/> is not written.</param>
    public static void Write(OutputFolder folder, Comparison comparison, Gate? gate)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(comparison);
        using (Stream json = folder.CreateFile(Json))
        {
            ComparisonJson.Write(json, comparison, gate);
        }

        using (Stream table = folder.CreateFile(Differences))
        {
            TableCsv.Write(table, DifferenceTable.Of(comparison));
        }

        if (gate is not null)
        {
            using Stream xml = folder.CreateFile(JUnit);
            ComparedSide first = comparison.Pair.Sides[ComparedPair.First];
            ComparedSide second = comparison.Pair.Sides[ComparedPair.Second];
            (string Name, string Value)[] properties =
            [
                ("baseline", first.Label),
                ("baseline_detector", first.Detector),
                ("baseline_study_identity", first.StudyIdentity),
                ("new", second.Label),
                ("new_detector", second.Detector),
                ("new_study_identity", second.StudyIdentity),
            ];
            JUnitWriter.Write(xml, comparison.Pair.Results.Plan.Title, properties, gate.Cases);
        }
    }
}
