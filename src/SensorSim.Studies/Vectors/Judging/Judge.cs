// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;

namespace SensorSim.Studies.Vectors.Judging;

/// <summary>Holds answers against the windows of acceptance.</summary>
public static class Judge
{
    /// <summary>Judges the answers of a case.</summary>
    /// <param name="planned">The case.</param>
    /// <param name="rows">Its windows of acceptance.</param>
    /// <param name="answers">The answers.</param>
    /// <param name="isOwnLibrary">Whether they are those of the library of this project, whose known deviations the plan lists.</param>
    /// <returns>A verdict for each requirement of the case, in the order of the plan.</returns>
    public static IReadOnlyList<RequirementVerdict> Case(
        PlannedCase planned, IReadOnlyList<AcceptanceRow> rows, IEnumerable<DetectionRow> answers, bool isOwnLibrary = false) =>
        Case(planned, rows, CaseAnswers.Of(answers), isOwnLibrary);

    /// <summary>Judges the answers of a case.</summary>
    /// <param name="planned">The case.</param>
    /// <param name="rows">Its windows of acceptance.</param>
    /// <param name="answers">The answers.</param>
    /// <param name="isOwnLibrary">Whether they are those of the library of this project, whose known deviations the plan lists.</param>
    /// <returns>A verdict for each requirement of the case, in the order of the plan.</returns>
    public static IReadOnlyList<RequirementVerdict> Case(
        PlannedCase planned, IReadOnlyList<AcceptanceRow> rows, CaseAnswers answers, bool isOwnLibrary = false)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(answers);
        var own = rows.ToLookup(r => r.Requirement, StringComparer.Ordinal);
        var verdicts = new List<RequirementVerdict>();
        foreach (PlannedRequirement requirement in planned.Requirements)
        {
            RequirementVerdict verdict = One(requirement, planned.Name, [.. own[requirement.Id]], answers);
            if (answers.Count == 0 && verdict.Outcome == RequirementOutcome.Met)
            {
                // Who says nothing says nothing wrong; a reader should know that it is no more than that.
                verdict = verdict with { Sentence = $"{verdict.Sentence}; nothing at all was given in this case" };
            }

            PlannedDeviation? known = isOwnLibrary ? planned.DeviationFrom(requirement.Id) : null;
            verdicts.Add(known is null ? verdict
                : verdict.Outcome == RequirementOutcome.NotMet
                    ? verdict with { Outcome = RequirementOutcome.KnownDeviation, Sentence = $"{verdict.Sentence}; known: {known.Reason}" }
                    : verdict with { IsDeviationIdle = verdict.Outcome == RequirementOutcome.Met });
        }

        return verdicts;
    }

    private static RequirementVerdict One(PlannedRequirement requirement, string caseName, IReadOnlyList<AcceptanceRow> rows, CaseAnswers answers)
    {
        Finding finding = rows.Count == 0
            ? Finding.NotJudged("the case has nothing that this requirement could be held against")
            : requirement.Rule switch
            {
                RequirementRule.Marks => MarkJudge.Judge(requirement, rows, answers),
                RequirementRule.Readings => ReadingJudge.Judge(requirement, rows, answers),
                RequirementRule.Withheld => StretchJudge.Withheld(requirement, rows, answers),
                RequirementRule.Shown => StretchJudge.Shown(rows, answers),
                _ => MarkJudge.Prompt(requirement, rows, answers),
            };
        return new RequirementVerdict
        {
            RequirementId = requirement.Id,
            CaseName = caseName,
            Outcome = finding.Outcome,
            Figures = finding.Figures,
            Sentence = finding.Sentence,
            FirstFaultNs = finding.FirstFaultNs,
        };
    }
}
