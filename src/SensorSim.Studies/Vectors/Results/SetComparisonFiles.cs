// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Files.JUnit;
using SensorSim.Files.Output;
using SensorSim.Files.Trx;
using SensorSim.Signals.Identity;
using SensorSim.Studies.Vectors.Judging;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Results;

/// <summary>Writes the files of a comparison.</summary>
public static class SetComparisonFiles
{
    /// <summary>Every figure, JSON.</summary>
    public const string Results = "results.json";

    /// <summary>The verdicts as JUnit XML.</summary>
    public const string JUnit = "results.xml";

    /// <summary>The verdicts as TRX.</summary>
    public const string Trx = "results.trx";

    /// <summary>The traceability matrix.</summary>
    public const string Matrix = "traceability.md";

    /// <summary>Who ran what when.</summary>
    public const string Record = "run-record.json";

    /// <summary>Writes them all.</summary>
    /// <param name="folder">Takes them; not committed.</param>
    /// <param name="comparison">The comparison.</param>
    /// <param name="record">Who ran it; an empty one is not written.</param>
    public static void Write(OutputFolder folder, SetComparison comparison, RunRecord record)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentNullException.ThrowIfNull(record);
        IReadOnlyList<JUnitCase> cases = Cases(comparison);
        var sums = new List<(string Name, string Sha256)>();
        Add(Results, stream => SetComparisonJson.Write(stream, comparison));
        Add(JUnit, stream => JUnitWriter.Write(
            stream,
            comparison.Title,
            [
                ("manifest_sha256", comparison.ManifestSha256), ("answers", comparison.Answers), ("generator_version", FormattableString.Invariant($"{comparison.GeneratorVersion}")),
                ("program_version", comparison.ProgramVersion), .. record.Said,
            ],
            cases));
        Add(Trx, stream => TrxWriter.Write(stream, comparison.Title, cases, TrxTime(record.Date)));
        Add(Matrix, stream => stream.Write(Encoding.UTF8.GetBytes(TraceMatrix.Text(comparison, record))));
        if (!record.IsEmpty)
        {
            using Stream own = folder.CreateFile(Record);
            record.Write(own, comparison, sums);
        }

        void Add(string name, Action<Stream> write)
        {
            using var kept = new MemoryStream();
            write(kept);
            byte[] bytes = kept.ToArray();
            sums.Add((name, Sha256Sum.Of(bytes)));
            using Stream file = folder.CreateFile(name);
            file.Write(bytes);
        }
    }

    // A day is what somebody who writes 2026-05-04 has told; anything else stands in the other files as it was written.
    private static DateOnly? TrxTime(string date) =>
        DateOnly.TryParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;

    /// <summary>The comparison as cases of a test report: one for each requirement of each case, and one for a case that failed as a whole or is held against its expected answers.</summary>
    /// <param name="comparison">The comparison.</param>
    public static IReadOnlyList<JUnitCase> Cases(SetComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        var cases = new List<JUnitCase>();
        foreach (ComparedCase one in comparison.Cases)
        {
            if (one.Fault.Length > 0)
            {
                cases.Add(new JUnitCase(one.Planned.Name, "answers", JUnitOutcome.Failed, one.Fault));
            }

            if (one.Difference is not null)
            {
                cases.Add(new JUnitCase(
                    one.Planned.Name, "expected", one.Difference.IsExact ? JUnitOutcome.Passed : JUnitOutcome.Failed, one.Difference.IsExact ? "" : one.Difference.Sentence));
            }

            cases.AddRange(one.Verdicts.Select(v => Case(comparison, v)));
        }

        return cases;
    }

    // A known deviation is not a failure, and a report that called it passed would hide it.
    private static JUnitCase Case(SetComparison comparison, RequirementVerdict verdict)
    {
        string text = comparison.Requirements.FirstOrDefault(r => r.Id == verdict.RequirementId) is { } requirement ? $"{requirement.Text} ({requirement.Clause})" : "";
        return verdict.Outcome switch
        {
            RequirementOutcome.Met => new JUnitCase(verdict.CaseName, verdict.RequirementId, JUnitOutcome.Passed, Text: $"{text}\n{verdict.Sentence}"),
            RequirementOutcome.KnownDeviation => new JUnitCase(verdict.CaseName, verdict.RequirementId, JUnitOutcome.Skipped, verdict.Sentence, text),
            _ => new JUnitCase(verdict.CaseName, verdict.RequirementId, JUnitOutcome.Failed, verdict.Sentence, text),
        };
    }
}
