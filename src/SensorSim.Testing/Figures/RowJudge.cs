// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using Interval = SensorSim.Scoring.Statistics.Interval;

namespace SensorSim.Testing;

/// <summary>Judges one row of scores over runs, and says what to look at.</summary>
internal sealed class RowJudge(RowPlan plan, IReadOnlyList<FigureLimit> limits, ScoredRuns runs)
{
    private const int MostSeeds = 5;

    /// <summary>The judgement.</summary>
    public Judgement Judge()
    {
        var figures = limits.Select(l => new PooledFigure(l.Figure, plan.Channel, plan.Kind, runs.Runs)).ToArray();
        bool isMet = plan.IsEach
            ? Enumerable.Range(0, runs.Runs.Count).All(IsRunKept)
            : limits.Zip(figures).All(p => p.Second.Keeps(p.First));
        int[] order = [.. Enumerable.Range(0, runs.Runs.Count).OrderBy(i => IsRunKept(i) ? 1 : 0).ThenBy(i => Quality(figures[Worst()], i))];
        return new Judgement(isMet, string.Join("; ", limits.Zip(figures).Select(p => Measured(p.First, p.Second))), Details(figures, order), runs.Runs[order[0]].Seed);

        // Of runs that are pooled, each shows by its figure where to look: its own interval is wide.
        bool IsRunKept(int run) => limits.Zip(figures).All(p => p.Second.KeepsInRun(p.First with { IsCertain = p.First.IsCertain && plan.IsEach }, run));

        // The figure by which runs are ordered: the first that is not kept.
        int Worst() => Math.Max(0, Enumerable.Range(0, figures.Length).FirstOrDefault(i => !figures[i].Keeps(limits[i]), 0));

        double Quality(PooledFigure figure, int run) => figure.OfRun(run) is double v ? (limits[Worst()].Figure.IsLeast ? v : -Math.Abs(v)) : double.NegativeInfinity;
    }

    private string Measured(in FigureLimit limit, PooledFigure figure)
    {
        string text = $"{limit.Figure.Name} {FigureText.Value(limit.Figure, figure.Value, plan.Kind)}";
        Interval? interval = figure.Range();
        return (interval, Counts(limit.Figure)) switch
        {
            (Interval i, { Length: > 0 } counts) => $"{text} (95 % interval {FigureText.Range(limit.Figure, i)}; {counts})",
            (Interval i, _) => $"{text} (95 % interval {FigureText.Range(limit.Figure, i)})",
            (null, { Length: > 0 } counts) => $"{text} ({counts})",
            _ => text,
        };
    }

    private string Counts(Figure figure)
    {
        EventScore[] events = [.. runs.Runs.Select(r => r.Outcome.Report!.Find(plan.Channel, plan.Kind)).OfType<EventScore>()];
        ReadingScore[] readings = [.. runs.Runs.Select(r => r.Outcome.Report!.FindReading(plan.Channel, plan.Kind)).OfType<ReadingScore>()];
        return FormattableString.Invariant(figure.Name switch
        {
            _ when events.Length + readings.Length == 0 => (FormattableString)$"no {plan.Kind.Text()} on {plan.Channel.Text()} in truth or answers",
            _ when figure == Figure.Sensitivity => $"{events.Sum(e => e.Matched)} of {events.Sum(e => e.ReferenceCount)} found, {events.Sum(e => e.Missed)} missed",
            _ when figure == Figure.PositivePredictivity => $"{events.Sum(e => e.Extra)} extra beside {events.Sum(e => e.Matched)} found",
            _ when figure == Figure.WrongShare => $"{readings.Sum(r => r.Wrong)} wrong of {readings.Sum(r => r.JudgedCount)} judged",
            _ when figure == Figure.AvailableShare => $"{readings.Sum(r => r.AvailableS):0.#} of {readings.Sum(r => r.UsableS):0.#} s",
            _ when figure == Figure.First => $"{readings.Count(r => r.FirstReadingNs is not null)} of {runs.Runs.Count} runs have one",
            _ when events.Length > 0 => $"{events.Sum(e => e.TimedCount)} timed",
            _ => $"{readings.Sum(r => r.Count)} readings",
        });
    }

    private List<(string Label, string Text)> Details(PooledFigure[] figures, int[] order)
    {
        var lines = new List<(string, string)>();
        ScoredRun worst = runs.Runs[order[0]];
        if (runs.Runs.Count > 1)
        {
            lines.Add(("Seeds:", $"worst first: {string.Join(", ", order.Take(MostSeeds).Select(i => OfSeed(figures, i)))}"));
        }

        string seed = FormattableString.Invariant($"seed {worst.Seed}: ");
        Add("Missed:", worst.Notable.Missed(plan.Channel, plan.Kind).Select(t => $"at {FigureText.Seconds(t)}"));
        Add("Extra:", worst.Notable.Extra(plan.Channel, plan.Kind).Select(t => $"at {FigureText.Seconds(t)}"));
        Add("Wrong:", worst.Notable.Wrong(plan.Channel, plan.Kind).Select(Reading));
        return lines;

        void Add(string label, IEnumerable<string> texts)
        {
            string all = string.Join(", ", texts);
            if (all.Length > 0)
            {
                lines.Add((label, $"{seed}first {all} (time of the body)"));
            }
        }
    }

    private string OfSeed(PooledFigure[] figures, int run) => FormattableString.Invariant(
        $"{runs.Runs[run].Seed} ({string.Join(", ", limits.Zip(figures).Select(p => InRun(p.First, p.Second, run)))})");

    private string InRun(in FigureLimit limit, PooledFigure figure, int run)
    {
        string text = FigureText.Value(limit.Figure, figure.OfRun(run), plan.Kind);
        return limit.IsCertain && plan.IsEach && figure.RangeOfRun(run) is Interval i ? $"{text}, 95 % interval {FigureText.Range(limit.Figure, i)}" : text;
    }

    private string Reading(JudgedReading judged)
    {
        string unit = plan.Kind.Info().ValueUnit;
        string truth = judged.Place == Scoring.Matching.Place.Unusable ? "in an unusable stretch"
            : judged.Truth is double t ? $"truth {FigureText.Number(t)}"
            : "where there is nothing to read";
        return $"{FigureText.Number(judged.Mark.Value)} {unit} at {FigureText.Seconds(judged.Mark.TimeNs)} ({truth})";
    }
}
