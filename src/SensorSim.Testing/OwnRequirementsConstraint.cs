// SPDX-License-Identifier: MIT
using SensorSim.Studies.Results;

namespace SensorSim.Testing;

/// <summary>Asks that a detector meets what the scenario itself requires.</summary>
public sealed class OwnRequirementsConstraint : RunConstraint
{
    private const int MostShown = 6;

    internal OwnRequirementsConstraint(GivenScenario? given)
        : base(given)
    {
    }

    /// <summary>What the detector is run on.</summary>
    /// <param name="given">A scenario with its seeds; it must require something.</param>
    /// <exception cref="ArgumentException">The scenario requires nothing.</exception>
    public OwnRequirementsConstraint On(GivenScenario given)
    {
        ArgumentNullException.ThrowIfNull(given);
        if (GivenOwn is not null)
        {
            throw new InvalidOperationException($"The constraint is on {GivenOwn} already; begin a new one for {given}.");
        }

        RefuseNone(given);
        return new OwnRequirementsConstraint(given);
    }

    /// <inheritdoc/>
    private protected override string Asked => "every requirement of the scenario met with every seed";

    /// <inheritdoc/>
    private protected override Judgement Judge(ScoredRuns runs)
    {
        RefuseNone(runs.Given);
        var failed = runs.Runs
            .SelectMany(r => RequirementResult.Judge(runs.Given.Scenario.Requirements, r.Outcome.Report!).Where(q => !q.IsMet).Select(q => (r.Seed, Result: q)))
            .ToArray();
        int count = runs.Given.Scenario.Requirements.Count();
        return failed.Length == 0
            ? new Judgement(true, FormattableString.Invariant($"{count} requirements met with {runs.Runs.Count} seeds"), [], runs.Runs[0].Seed)
            : new Judgement(
                false,
                FormattableString.Invariant($"{failed.Select(f => f.Result.Definition.Key.Key).Distinct().Count()} of {count} not met"),
                [.. failed.Take(MostShown).Select(f => ("Not met:", Text(f.Seed, f.Result)))],
                failed[0].Seed);
    }

    private static string Text(ulong seed, RequirementResult result) => FormattableString.Invariant(
        $"seed {seed}: {result.Subject}, {result.Definition.Key.Key} = {FigureText.Number(result.Limit)}, reached {(result.Actual is double a ? FigureText.Number(a) : "nothing")}");

    private static void RefuseNone(GivenScenario given)
    {
        if (!given.Scenario.Requirements.Any())
        {
            throw new ArgumentException($"{given.Label} requires nothing; add [requirements] to it, or use Finds and Reads.");
        }
    }
}
