// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring;
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Challenges;

/// <summary>The moment at which a run first does what breaks its requirement.</summary>
/// <param name="TimeS">When, in body time [s].</param>
/// <param name="What">What happens there, in words.</param>
public sealed record Moment(double TimeS, string What);

/// <summary>Finds the moment of failure and keeps what lies about it.</summary>
internal sealed class MomentFinder
{
    private const double AroundS = 5;

    private readonly Breach _breach;
    private long _atNs = long.MaxValue;
    private string _what = "";

    private MomentFinder(Breach breach) => _breach = breach;

    /// <summary>The moment.</summary>
    public Moment Moment { get; private set; } = new(0, "");

    /// <summary>Five seconds to either side.</summary>
    public FirstSeconds? Around { get; private set; }

    /// <summary>Runs the scenario twice: to find the moment, then to keep its surroundings.</summary>
    /// <param name="bench">Makes the runs.</param>
    /// <param name="scenario">The scenario that fails.</param>
    /// <param name="breach">What it breaks.</param>
    public static MomentFinder Find(TrialBench bench, Scenario scenario, Breach breach)
    {
        var finder = new MomentFinder(breach);
        (RunOutcome outcome, _) = bench.Run(scenario, scorer =>
        {
            scorer.EventJudged = finder.Take;
            scorer.ReadingJudged = finder.Take;
        });
        finder.Settle(scenario, outcome);
        double begin = Math.Max(0, finder.Moment.TimeS - AroundS);
        double end = Math.Min(scenario.DurationS, Math.Max(finder.Moment.TimeS, begin) + AroundS);
        bench.Run(scenario, null, stream =>
        {
            finder.Around = new FirstSeconds(stream.Format, Math.Min(begin, end - 1), end, stream.Clocks);
            return [finder.Around];
        });
        return finder;
    }

    private void Settle(Scenario scenario, RunOutcome outcome)
    {
        if (_atNs == long.MaxValue)
        {
            string why = outcome.VerdictReason.Length > 0 ? outcome.VerdictReason : "No single answer is wrong; the figure comes from many small errors, or from readings that were never given.";
            Moment = new Moment(scenario.DurationS / 2, why);
            return;
        }

        Moment = new Moment(_atNs / 1e9, outcome.Verdict == Verdict.Answered ? _what : $"{outcome.VerdictReason} First: {_what}");
    }

    private void Take(JudgedEvent judged)
    {
        bool isAnyKind = _breach.Result is null;
        if (!judged.IsScored || (!isAnyKind && (judged.Kind != _breach.Result!.Definition.Kind || !_breach.Subject.StartsWith(judged.Channel.Text(), StringComparison.Ordinal))))
        {
            return;
        }

        string kind = $"{judged.Channel.Text()} {judged.Kind.Text()}";
        RequiredFigure? figure = _breach.Result?.Definition.Figure;
        if (judged.DetectionNs is null)
        {
            if (figure is null or RequiredFigure.Sensitivity)
            {
                Note(judged.TruthNs!.Value, $"{kind} missed");
            }
        }
        else if (judged.TruthNs is not long truth)
        {
            if (figure is null or RequiredFigure.PositivePredictivity)
            {
                Note(judged.DetectionNs.Value, $"{kind} given where there is none");
            }
        }
        else if (figure is RequiredFigure.TimingBias or RequiredFigure.TimingSd or RequiredFigure.TimingP95)
        {
            double errorMs = (judged.DetectionNs.Value - truth) / 1e6;
            if (Math.Abs(errorMs) > _breach.Limit!.Value)
            {
                Note(truth, FormattableString.Invariant($"{kind} {errorMs:0.#} ms off"));
            }
        }
    }

    private void Take(JudgedReading judged)
    {
        if (judged.Place != Place.Scored || _breach.Result is null || judged.Mark.Kind != _breach.Result.Definition.Kind || judged.Truth is not double truth)
        {
            return;
        }

        double error = judged.Mark.Value - truth;
        if (judged.IsWrong || Math.Abs(error) > _breach.Limit!.Value)
        {
            Note(judged.Mark.TimeNs, FormattableString.Invariant($"{judged.Mark.Kind.Text()} reads {judged.Mark.Value:0.##}, true is {truth:0.##}"));
        }
    }

    private void Note(long timeNs, string what)
    {
        if (timeNs < _atNs)
        {
            _atNs = timeNs;
            _what = what;
        }
    }
}
