// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Challenges;

/// <summary>A requirement that a run does not meet.</summary>
/// <param name="Requirement">Name of its key; <see cref="Answers"/> when the detector was silent, babbled or crashed.</param>
/// <param name="Subject">Channel and kind, for example <c>ecg r_peak</c>; empty for <see cref="Answers"/>.</param>
/// <param name="Limit">Its limit; null for <see cref="Answers"/>.</param>
/// <param name="Figure">The figure reached; null when it is undefined.</param>
/// <param name="Result">The requirement and what became of it; null for <see cref="Answers"/>.</param>
public sealed record Breach(string Requirement, string Subject, double? Limit, double? Figure, RequirementResult? Result)
{
    /// <summary>What every detector owes without being asked: sound answers.</summary>
    public const string Answers = "detector_answers";

    /// <summary>Whether it is the same requirement on the same row.</summary>
    /// <param name="other">The other.</param>
    public bool IsLike(Breach other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Requirement == other.Requirement && Subject == other.Subject;
    }

    /// <summary>The requirements that a run does not meet, in the order of the scenario's keys.</summary>
    /// <param name="outcome">What came out of the run; scored.</param>
    /// <param name="requirements">The requirements, judged.</param>
    /// <remarks>
    /// <c>run</c> calls an undefined figure not met; here it is a breach only of events that were there and not found. A reading that was never
    /// given is none: a gate that stays shut over a bad signal does what it is for. Neither is a figure where nothing was left to score, for
    /// example without contact all the time.
    /// </remarks>
    public static IReadOnlyList<Breach> Of(RunOutcome outcome, IReadOnlyList<RequirementResult> requirements)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        ArgumentNullException.ThrowIfNull(requirements);
        var breaches = new List<Breach>();
        ScoreReport report = outcome.Report!;
        if (outcome.Verdict != Verdict.Answered && report.Scores.Any(s => s.ReferenceCount > 0))
        {
            breaches.Add(new Breach(Answers, "", null, null, null));
        }

        foreach (RequirementResult result in requirements)
        {
            if (!result.IsMet && (result.Actual is not null || HadSomethingToFind(result, report)))
            {
                breaches.Add(new Breach(result.Definition.Key.Name, result.Subject, result.Limit, result.Actual, result));
            }
        }

        return breaches;
    }

    private static bool HadSomethingToFind(RequirementResult result, ScoreReport report) =>
        report.Scores.Any(s => s.Kind == result.Definition.Kind && s.ReferenceCount > 0);
}
