// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Comparisons;

/// <summary>Tells whether and how two sweeps belong together.</summary>
internal static class Pairing
{
    /// <summary>Why runs of two studies cannot be paired; null when they can.</summary>
    public static string? WhyNot(SweepSummary first, SweepSummary second)
    {
        if (first.IdentityOfStreams == second.IdentityOfStreams)
        {
            return null;
        }

        (StudyPlan a, StudyPlan b) = (first.Plan, second.Plan);
        return first.GeneratorVersion != second.GeneratorVersion ? $"the signals were made by generator {first.GeneratorVersion} and {second.GeneratorVersion}"
            : !a.Factors.Select(f => f.Key.Name).SequenceEqual(b.Factors.Select(f => f.Key.Name), StringComparer.Ordinal) ? $"the varied keys differ ({Keys(a)}; {Keys(b)})"
            : !a.Points.SelectMany(p => p.Values).SequenceEqual(b.Points.SelectMany(p => p.Values)) ? $"the points differ ({Plural.Of(a.Points.Count, "point")}; {Plural.Of(b.Points.Count, "point")}; compare their levels)"
            : !a.Seeds.SequenceEqual(b.Seeds) ? $"the seeds differ ({Range(a.Seeds)}; {Range(b.Seeds)})"
            : !a.SubjectSeeds.SequenceEqual(b.SubjectSeeds) ? $"the persons differ ({Range(a.SubjectSeeds)}; {Range(b.SubjectSeeds)})"
            : "the scenario, its values or a file that it names differ";
    }

    /// <summary>The detector that is meant.</summary>
    public static int DetectorOf(FinishedSweep sweep, string? label, string option, int? unless)
    {
        string[] labels = [.. sweep.Summary.Plan.Detectors.Select(d => d.Label)];
        string all = string.Join(", ", labels);
        if (label is not null)
        {
            int index = Array.IndexOf(labels, label);
            return index >= 0 ? index : throw new InputFileException(sweep.Place, 0, 0, $"has no detector {label}; its detectors are {all}.");
        }

        return labels.Length == 1 ? 0
            : labels.Length == 2 && unless is int own ? own
            : throw new InputFileException(sweep.Place, 0, 0, $"has the detectors {all}; name one with {option}.");
    }

    public static ComparedSide SideOf(FinishedSweep sweep, int detector) => new(
        sweep.Summary.Plan.Detectors[detector].Label,
        sweep.Summary.Detectors[detector],
        sweep.Summary.IdentityOfAll,
        sweep.Summary.ProgramVersion,
        sweep.Summary.Plan.Detectors.Count,
        detector);

    /// <summary>The rows of runs that both have, numbered as in the plan of two detectors, and how many runs only one has.</summary>
    public static (List<RunRow> Rows, long LeftOut) RowsOf(StudyPlan plan, FinishedSweep first, int firstDetector, FinishedSweep second, int secondDetector)
    {
        var rows = new List<RunRow>();
        long leftOut = 0;
        for (int point = 0; point < plan.Points.Count; point++)
        {
            for (int seed = 0; seed < plan.Seeds.Count; seed++)
            {
                for (int subject = 0; subject < plan.SubjectCount; subject++)
                {
                    RunRow? a = first.Results.Find(new RunKey(point, seed, subject, firstDetector));
                    RunRow? b = second.Results.Find(new RunKey(point, seed, subject, secondDetector));
                    if (a is null || b is null)
                    {
                        leftOut += a is null && b is null ? 0 : 1;
                        continue;
                    }

                    rows.Add(a with { Run = plan.NumberOf(new RunKey(point, seed, subject, ComparedPair.First)) });
                    rows.Add(b with { Run = plan.NumberOf(new RunKey(point, seed, subject, ComparedPair.Second)) });
                }
            }
        }

        return (rows, leftOut);
    }

    public static IReadOnlyList<string> NotesOf(SweepSummary first, SweepSummary second, long leftOut)
    {
        var notes = new List<string>();
        if (leftOut > 0)
        {
            notes.Add($"{Plural.Of(leftOut, "run")} that only one of the two has {(leftOut == 1 ? "is" : "are")} left out.");
        }

        if (!first.Plan.Requirements.SequenceEqual(second.Plan.Requirements))
        {
            notes.Add("The requirements of the two studies differ; those of the first hold for both.");
        }

        if (first.Plan.FailurePoint != second.Plan.FailurePoint)
        {
            notes.Add("The two studies define their failure points differently; the first's definition holds for both.");
        }

        return notes;
    }

    private static string Keys(StudyPlan plan) => plan.Factors.Count == 0 ? "none" : string.Join(", ", plan.Factors.Select(f => f.Key.Name));

    private static string Range(IReadOnlyList<ulong> seeds) => seeds.Count == 0 ? "none"
        : string.Create(CultureInfo.InvariantCulture, $"{seeds.Count} from {seeds[0]} to {seeds[^1]}");
}
