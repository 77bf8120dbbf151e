// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring;
using SensorSim.Scoring.Matching;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.WorstCases;

namespace SensorSim.Studies.Challenges;

/// <summary>The moment at which a run first does what breaks its requirement.</summary>
/// <param name="TimeS">When, in body time [s].</param>
/// <param name="What">What happens there, in words.</param>
public sealed record Moment(double TimeS, string What)
{
    /// <summary>Whether one event, reading or gap stands there; else it is the middle of what is scored.</summary>
    public bool IsSingle { get; init; }
}

/// <summary>Finds the moment of failure, which is scored, and keeps what lies about it.</summary>
internal sealed class MomentFinder
{
    private const double AroundS = 5;
    private const double SameNs = 1e6;

    private readonly Breach _breach;
    private readonly double? _keepNs;
    private long _atNs = long.MaxValue;
    private string _what = "";

    private MomentFinder(Breach breach, double? keepS)
    {
        _breach = breach;
        _keepNs = keepS * 1e9;
    }

    /// <summary>Runs a scenario to find the moment.</summary>
    /// <param name="bench">Makes the run.</param>
    /// <param name="scenario">The scenario that fails.</param>
    /// <param name="breach">What it breaks.</param>
    /// <param name="keepS">When given, only a failure at this time counts, body time [s].</param>
    public static Moment Locate(TrialBench bench, Scenario scenario, Breach breach, double? keepS = null)
    {
        var finder = new MomentFinder(breach, keepS);
        ReadingGaps? gaps = null;
        (RunOutcome outcome, _) = bench.Run(
            scenario,
            scorer =>
            {
                scorer.EventJudged = finder.Take;
                scorer.ReadingJudged = finder.Take;
            },
            stream => finder.GapsOf(stream) is ReadingGaps sink ? [gaps = sink] : []);
        return finder.Settle(outcome, gaps);
    }

    /// <summary>Runs it again to keep five seconds to either side.</summary>
    /// <param name="bench">Makes the run.</param>
    /// <param name="scenario">The scenario that fails.</param>
    /// <param name="moment">The moment.</param>
    public static FirstSeconds Around(TrialBench bench, Scenario scenario, Moment moment)
    {
        double begin = Math.Max(0, moment.TimeS - AroundS);
        double end = Math.Min(scenario.DurationS, Math.Max(moment.TimeS, begin) + AroundS);
        FirstSeconds? around = null;
        bench.Run(scenario, null, stream =>
        {
            around = new FirstSeconds(stream.Format, Math.Min(begin, end - 1), end, stream.Clocks);
            return [around];
        });
        return around!;
    }

    private ReadingGaps? GapsOf(IToldStream stream) =>
        _breach.Result?.Definition is { Figure: RequiredFigure.ReadingAvailableShare } definition
        && stream.Format.Channels.FirstOrDefault(c => IsOurs(c.Name, definition.Kind)) is ChannelFormat channel
            ? new ReadingGaps(stream, channel.Name, definition.Kind)
            : null;

    private Moment Settle(RunOutcome outcome, ReadingGaps? gaps)
    {
        ScoreReport report = outcome.Report!;
        if (_breach.Result is null && outcome.FailedAtS is double failedS)
        {
            NoteInside((long)(failedS * 1e9), long.MaxValue, "the detector fails in the second before");
        }

        foreach ((long begin, long end) in gaps?.Between(report.ScoredBeginNs, report.ScoredEndNs) ?? [])
        {
            NoteInside(begin, end, FormattableString.Invariant($"{_breach.Subject}: no reading for {(end - begin) / 1e9:0.0} s"));
        }

        if (_breach.Result?.Definition.Figure == RequiredFigure.ReadingFirst)
        {
            // Its time counts from the start, lead-in included.
            NoteInside(Math.Min((long)(_breach.Limit!.Value * 1e9), report.ScoredEndNs), long.MaxValue, $"{_breach.Subject}: no reading so far");
        }

        if (_atNs == long.MaxValue)
        {
            string why = outcome.VerdictReason.Length > 0 ? outcome.VerdictReason : "No single answer is wrong; the figure comes from many small errors. The middle of what is scored is shown.";
            return new Moment((report.ScoredBeginNs + report.ScoredEndNs) / 2e9, why);
        }

        double timeS = (_keepNs ?? _atNs) / 1e9;
        return new Moment(timeS, outcome.Verdict == Verdict.Answered ? _what : $"{outcome.VerdictReason} First: {_what}") { IsSingle = true };
    }

    // Of a kept moment the gap may begin sooner, when the lead-in of a shorter record is shorter.
    private void NoteInside(long beginNs, long endNs, string what) =>
        Note(_keepNs is double keep && keep >= beginNs && keep < endNs ? (long)keep : beginNs, what);

    private bool IsOurs(ChannelName channel, MarkKind kind) =>
        _breach.Result is null || _breach.Subject == $"{channel.Text()} {kind.Text()}";

    private void Take(JudgedEvent judged)
    {
        if (!judged.IsScored || !IsOurs(judged.Channel, judged.Kind))
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
        RequiredFigure? figure = _breach.Result?.Definition.Figure;
        if (judged.Place == Place.Outside || figure is null || !IsOurs(judged.Mark.Channel, judged.Mark.Kind))
        {
            return;
        }

        string reads = FormattableString.Invariant($"{judged.Mark.Kind.Text()} reads {judged.Mark.Value:0.##}");
        if (figure == RequiredFigure.ReadingWrongShare && judged.IsWrong)
        {
            Note(judged.Mark.TimeNs, judged.Truth is double value ? FormattableString.Invariant($"{reads}, true is {value:0.##}") : $"{reads} where there is nothing to read");
        }
        else if (figure is RequiredFigure.ReadingBias or RequiredFigure.ReadingSd or RequiredFigure.ReadingRms && judged.Place == Place.Scored
            && judged.Truth is double truth && Math.Abs(judged.Mark.Value - truth) > _breach.Limit!.Value)
        {
            Note(judged.Mark.TimeNs, FormattableString.Invariant($"{reads}, true is {truth:0.##}"));
        }
    }

    private void Note(long timeNs, string what)
    {
        if (timeNs < _atNs && (_keepNs is not double keep || Math.Abs(timeNs - keep) < SameNs))
        {
            _atNs = timeNs;
            _what = what;
        }
    }
}
