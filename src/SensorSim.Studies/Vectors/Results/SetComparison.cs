// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Answers;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Results;

/// <summary>The answers to a whole set, held against acceptance or against the expected answers.</summary>
public sealed record SetComparison
{
    /// <summary>Title of the set.</summary>
    public required string Title { get; init; }

    /// <summary>SHA-256 of its manifest: which set it was, to the bit.</summary>
    public required string ManifestSha256 { get; init; }

    /// <summary>Generator version of the set.</summary>
    public required int GeneratorVersion { get; init; }

    /// <summary>Version of the program that compared.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>Whose answers: a path, or name and version of a detector.</summary>
    public required string Answers { get; init; }

    /// <summary>Requirements of the plan.</summary>
    public required IReadOnlyList<PlannedRequirement> Requirements { get; init; }

    /// <summary>The cases, in the order of the plan.</summary>
    public required IReadOnlyList<ComparedCase> Cases { get; init; }

    /// <summary>Whether it was held against the expected answers instead of acceptance.</summary>
    public required bool IsAgainstExpected { get; init; }

    /// <summary>Every verdict; none when held against the expected answers.</summary>
    public IEnumerable<RequirementVerdict> Verdicts => Cases.SelectMany(c => c.Verdicts);

    /// <summary>Whether everything that was asked is met: known deviations are.</summary>
    public bool IsMet => Cases.All(c => c.IsMet);

    /// <summary>Requirements that no case is held against.</summary>
    public IEnumerable<PlannedRequirement> UncoveredRequirements => Requirements.Where(r => Cases.All(c => c.Planned.Requirements.All(p => p.Id != r.Id)));

    /// <summary>Cases that ask nothing.</summary>
    public IEnumerable<ComparedCase> UncoveredCases => Cases.Where(c => c.Planned.Requirements.Count == 0);
}

/// <summary>One case of a comparison.</summary>
/// <param name="Planned">The case.</param>
/// <param name="Fault">Why the whole case failed, in a sentence: no answers, or how the detector failed; empty when it did not.</param>
/// <param name="Verdicts">Its verdicts.</param>
/// <param name="Difference">How it differs from the expected answers; null when that was not asked, or there are no answers.</param>
public sealed record ComparedCase(PlannedCase Planned, string Fault, IReadOnlyList<RequirementVerdict> Verdicts, AnswerDifference? Difference)
{
    /// <summary>SHA-256 of the file that its answers stand in, or of what the detector answered; empty when there are none.</summary>
    public string AnswersSha256 { get; init; } = "";

    /// <summary>Whether all that was asked of it is met.</summary>
    public bool IsMet => Fault.Length == 0 && !Verdicts.Any(v => v.IsFault) && Difference is not { IsExact: false };
}
