// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Readings;

namespace SensorSim.Testing;

/// <summary>Asks that a detector's readings of one kind are right: rates, arrival times, oxygen, pressure. Begin with <see cref="Reads"/>.</summary>
/// <remarks>
/// Without any limit it asks for at least one reading and no wrong one. A reading is wrong when it is further off than
/// <see cref="ReadingGate.LargestGoodError"/>, given where there is nothing to read, or in an unusable stretch. Each member gives a new constraint.
/// </remarks>
public sealed class ReadingConstraint : RunConstraint
{
    private static readonly FigureLimit[] s_usual = [new(Figure.WrongShare, 0, false)];

    private readonly RowPlan _plan;

    internal ReadingConstraint(RowPlan plan)
        : base(plan.Given) => _plan = plan;

    /// <summary>Magnitude of the mean error [unit of the kind].</summary>
    public MostLimit<ReadingConstraint> Bias => Most(Figure.Bias);

    /// <summary>Standard deviation of the error [unit of the kind].</summary>
    public MostLimit<ReadingConstraint> Spread => Most(Figure.Spread);

    /// <summary>Root mean square of the error [unit of the kind].</summary>
    public MostLimit<ReadingConstraint> RmsError => Most(Figure.RmsError);

    /// <summary>Wrong readings of those that can be judged [0 to 1].</summary>
    public MostLimit<ReadingConstraint> WrongShare => Most(Figure.WrongShare);

    /// <summary>Share of the usable time with a reading [0 to 1].</summary>
    public LeastLimit<ReadingConstraint> AvailableShare =>
        new((value, isCertain) => new ReadingConstraint(_plan.And(Figure.AvailableShare, value, isCertain)));

    /// <summary>When the first reading comes, from the start of the run [s]; of several runs the mean.</summary>
    public MostLimit<ReadingConstraint> FirstReadingS => Most(Figure.First);

    /// <summary>95th percentile of the time from the end of a reading's window to the reading [ms]; of several runs the worst.</summary>
    public MostLimit<ReadingConstraint> LatencyP95Ms => Most(Figure.ReadingLatencyP95);

    /// <summary>Each seed must keep the limits alone, instead of all pooled.</summary>
    public ReadingConstraint WithEverySeed => new(_plan with { IsEach = true });

    /// <summary>What the detector is run on.</summary>
    /// <param name="given">A scenario with its seeds.</param>
    public ReadingConstraint On(GivenScenario given) => new(_plan with { Given = given ?? throw new ArgumentNullException(nameof(given)) });

    /// <inheritdoc/>
    private protected override string Asked =>
        $"{_plan.Row} with {(_plan.IsEach ? "every seed " : "")}{string.Join(", ", Limits.Select(l => FigureText.Of(l, _plan.Kind)))}";

    private IReadOnlyList<FigureLimit> Limits => _plan.Limits.Count > 0 ? _plan.Limits : s_usual;

    /// <inheritdoc/>
    private protected override Judgement Judge(ScoredRuns runs) => new RowJudge(_plan, Limits, runs).Judge();

    private MostLimit<ReadingConstraint> Most(Figure figure) => new((value, isCertain) => new ReadingConstraint(_plan.And(figure, value, isCertain)), figure.IsShare);
}
