// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Identity;
using SensorSim.Studies.Sweeps;
using SensorSim.Studies.Vectors.Answers;
using SensorSim.Studies.Vectors.Judging;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Results;

/// <summary>Holds answers against a whole set.</summary>
public static class SetComparer
{
    /// <summary>Compares case by case.</summary>
    /// <param name="set">The set.</param>
    /// <param name="answers">Whose answers, for the results.</param>
    /// <param name="answersOf">Gives the answers to a case, or none and why.</param>
    /// <param name="isAgainstExpected">Against the expected answers, to the last digit, instead of acceptance.</param>
    /// <param name="isOwnLibrary">Whether they are those of the library of this project, whose known deviations count.</param>
    /// <exception cref="InputFileException">A file of the set, or of the answers, is not what it should be.</exception>
    public static SetComparison Compare(
        VectorSet set, string answers, Func<SetCase, (CaseFile? Answers, string Fault)> answersOf, bool isAgainstExpected, bool isOwnLibrary)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentNullException.ThrowIfNull(answersOf);
        return new SetComparison
        {
            Title = set.Manifest.Title,
            ManifestSha256 = Sha256Sum.OfFile(Path.Combine(set.Folder, SetNames.Manifest)),
            GeneratorVersion = set.Manifest.GeneratorVersion,
            Answers = answers,
            ProgramVersion = StudyIdentity.ProgramVersion,
            Requirements = set.Plan.Requirements,
            Cases = [.. set.Cases.Select(c => One(c, answersOf(c), isAgainstExpected, isOwnLibrary))],
            IsAgainstExpected = isAgainstExpected,
        };
    }

    private static ComparedCase One(SetCase own, (CaseFile? Answers, string Fault) given, bool isAgainstExpected, bool isOwnLibrary)
    {
        if (given.Answers is not CaseFile answers)
        {
            // Each requirement of the case is one that was not judged; the case is at fault where none stands for it.
            return isAgainstExpected
                ? new ComparedCase(own.Planned, given.Fault, [], Difference: null)
                : new ComparedCase(own.Planned, "", [.. own.Planned.Requirements.Select(r => Unanswered(own, r, given.Fault))], Difference: null);
        }

        if (isAgainstExpected)
        {
            using var expected = new DetectionsCsvReader(own.ExpectedPath);
            return new ComparedCase(own.Planned, given.Fault, [], ExactAnswers.Compare([.. expected.ReadAll()], answers)) { AnswersSha256 = answers.Sha256 };
        }

        using var rows = new AcceptanceCsvReader(own.AcceptancePath);
        return new ComparedCase(own.Planned, given.Fault, Judge.Case(own.Planned, [.. rows.ReadAll()], CaseAnswers.Of(answers.Rows), isOwnLibrary), Difference: null)
        {
            AnswersSha256 = answers.Sha256,
        };
    }

    private static RequirementVerdict Unanswered(SetCase own, PlannedRequirement requirement, string why) => new()
    {
        RequirementId = requirement.Id,
        CaseName = own.Name,
        Outcome = RequirementOutcome.NotJudged,
        Figures = [],
        Sentence = why,
    };
}
