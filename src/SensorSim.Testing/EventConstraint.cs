// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Asks that a detector finds the events of one row: beats, feet, waves. Begin with <see cref="Finds"/>.</summary>
/// <remarks>
/// Without any limit it asks for every event and nothing else. Scored as <c>sensorsim run</c> scores: matched within 150 ms, the first seconds and the last
/// second left out, unusable stretches left out, declared delays and clocks taken off. Each member gives a new constraint.
/// </remarks>
public sealed class EventConstraint : RunConstraint
{
    private static readonly FigureLimit[] s_all = [new(Figure.Sensitivity, 1, false), new(Figure.PositivePredictivity, 1, false)];

    private readonly RowPlan _plan;

    internal EventConstraint(RowPlan plan)
        : base(plan.Given) => _plan = plan;

    /// <summary>Share of true events that are found [0 to 1].</summary>
    public LeastLimit<EventConstraint> Sensitivity => Least(Figure.Sensitivity);

    /// <summary>Share of detections that are right [0 to 1].</summary>
    public LeastLimit<EventConstraint> PositivePredictivity => Least(Figure.PositivePredictivity);

    /// <summary>Magnitude of the mean of detection − truth [ms].</summary>
    public MostLimit<EventConstraint> TimingBiasMs => Most(Figure.TimingBias);

    /// <summary>Standard deviation of detection − truth [ms].</summary>
    public MostLimit<EventConstraint> TimingSpreadMs => Most(Figure.TimingSpread);

    /// <summary>95th percentile of the magnitude of detection − truth [ms].</summary>
    public MostLimit<EventConstraint> TimingP95Ms => Most(Figure.TimingP95);

    /// <summary>95th percentile of the time from an event to its answer [ms]; of several runs the worst. Needs answers that say when they were given.</summary>
    public MostLimit<EventConstraint> LatencyP95Ms => Most(Figure.EventLatencyP95);

    /// <summary>Each seed must keep the limits alone, instead of all pooled.</summary>
    public EventConstraint WithEverySeed => new(_plan with { IsEach = true });

    /// <summary>What the detector is run on.</summary>
    /// <param name="given">A scenario with its seeds.</param>
    public EventConstraint On(GivenScenario given) => new(_plan with { Given = given ?? throw new ArgumentNullException(nameof(given)) });

    /// <inheritdoc/>
    private protected override string Asked =>
        $"{_plan.Row} with {(_plan.IsEach ? "every seed " : "")}{string.Join(", ", Limits.Select(l => FigureText.Of(l, _plan.Kind)))}";

    private IReadOnlyList<FigureLimit> Limits => _plan.Limits.Count > 0 ? _plan.Limits : s_all;

    /// <inheritdoc/>
    private protected override Judgement Judge(ScoredRuns runs) => new RowJudge(_plan, Limits, runs).Judge();

    private LeastLimit<EventConstraint> Least(Figure figure) => new((value, isCertain) => new EventConstraint(_plan.And(figure, value, isCertain)));

    private MostLimit<EventConstraint> Most(Figure figure) => new((value, isCertain) => new EventConstraint(_plan.And(figure, value, isCertain)), figure.IsShare);
}
