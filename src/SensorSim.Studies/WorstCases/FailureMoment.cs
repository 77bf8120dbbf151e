// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring;
using SensorSim.Scoring.Matching;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.WorstCases;

/// <summary>Watches what a scorer judges for the moment that shows best why a requirement is not met.</summary>
/// <remarks>
/// For a share of events: the first one that lacks its partner. For a timing figure: the pair with the largest error, the first of equals. For a
/// reading's bias, SD or root mean square: the reading that is furthest off. For wrong readings: the first. For the share of time with a reading: the first stretch of a second or more without.
/// </remarks>
internal sealed class FailureMoment
{
    private readonly RequirementOnRow _requirement;
    private readonly List<JudgedEvent> _unpaired = [];
    private double _largest;
    private bool _isAnyJudged;

    internal FailureMoment(RequirementOnRow requirement) => _requirement = requirement;

    /// <summary>The moment, body time [ns]; null while nothing has stood out, never after <see cref="OnEnd"/>.</summary>
    internal long? BodyNs { get; private set; }

    /// <summary>What happens then, one sentence.</summary>
    internal string What { get; private set; } = "";

    /// <summary>Scored events of the requirement that pair with nothing, in order of judgement.</summary>
    internal IReadOnlyList<JudgedEvent> Unpaired => _unpaired;

    /// <summary>What watches for missing readings; null when the requirement is not about that.</summary>
    /// <param name="stream">The stream of the run.</param>
    internal ReadingGaps? GapsOf(IToldStream stream) => _requirement.Definition.Figure == RequiredFigure.ReadingAvailableShare
        ? new ReadingGaps(stream, _requirement.Channel, _requirement.Definition.Kind)
        : null;

    internal void OnEvent(JudgedEvent judged)
    {
        if (!judged.IsScored || judged.Channel != _requirement.Channel || judged.Kind != _requirement.Definition.Kind)
        {
            return;
        }

        if (judged.TruthNs is long truth && judged.DetectionNs is long detection)
        {
            _isAnyJudged = true;
            double errorMs = (detection - truth) * 1e-6;
            if (_requirement.Definition.Figure is RequiredFigure.TimingBias or RequiredFigure.TimingSd or RequiredFigure.TimingP95
                && (BodyNs is null || Math.Abs(errorMs) > _largest))
            {
                _largest = Math.Abs(errorMs);
                Set(truth, FormattableString.Invariant($"Largest timing error of the run: {errorMs:+0.0;−0.0;0.0} ms."));
            }

            return;
        }

        _unpaired.Add(judged);
        if (BodyNs is null && _requirement.Definition.Figure == RequiredFigure.Sensitivity && judged.TruthNs is long missed)
        {
            Set(missed, "First event that the detector missed.");
        }
        else if (BodyNs is null && _requirement.Definition.Figure == RequiredFigure.PositivePredictivity && judged.DetectionNs is long extra)
        {
            Set(extra, "First detection where there was no event.");
        }
    }

    internal void OnReading(JudgedReading judged)
    {
        if (judged.Place == Place.Outside || judged.Mark.Channel != _requirement.Channel || judged.Mark.Kind != _requirement.Definition.Kind)
        {
            return;
        }

        bool isOfErrors = _requirement.Definition.Figure is RequiredFigure.ReadingBias or RequiredFigure.ReadingSd or RequiredFigure.ReadingRms;
        if (isOfErrors && judged.Truth is double truth && judged.Place == Place.Scored)
        {
            _isAnyJudged = true;
            double error = judged.Mark.Value - truth;
            if (BodyNs is null || Math.Abs(error) > _largest)
            {
                _largest = Math.Abs(error);
                Set(judged.Mark.TimeNs, FormattableString.Invariant($"Reading of the run that is furthest off: {judged.Mark.Value:0.0##} for {truth:0.0##}."));
            }
        }
        else if (_requirement.Definition.Figure == RequiredFigure.ReadingWrongShare && BodyNs is null)
        {
            _isAnyJudged = true;
            if (!judged.IsWrong)
            {
                return;
            }

            string instead = judged.Truth is double value ? FormattableString.Invariant($"{judged.Mark.Value:0.0##} for {value:0.0##}") : "there was nothing to read";
            Set(judged.Mark.TimeNs, $"First wrong reading: {instead}.");
        }
    }

    /// <summary>States how the run ended: a detector that failed is shown where it did so, a reading that was missing where it is first missing.</summary>
    /// <param name="outcome">What came out of the run; scored.</param>
    /// <param name="gaps">Where the reading was missing; null when the requirement is not about that.</param>
    internal void OnEnd(RunOutcome outcome, ReadingGaps? gaps)
    {
        ScoreReport report = outcome.Report!;
        if (outcome.FailedAtS is double failedS)
        {
            Set((long)(failedS * 1e9), outcome.Verdict is Verdict.Crashed or Verdict.Hung
                ? "The detector failed in the block that ends here, and gave nothing from then on."
                : "In the block that ends here the detector first gave what no detector may.");
        }
        else if (_requirement.Definition.Figure == RequiredFigure.ReadingFirst)
        {
            Set(Math.Min((long)(_requirement.Limit * 1e9), report.ScoredEndNs), "No reading yet, though one is required by now.");
        }
        else if (gaps?.Between(report.ScoredBeginNs, report.ScoredEndNs) is [(long begin, long end), ..])
        {
            Set(begin, FormattableString.Invariant($"From here on no reading for {(end - begin) * 1e-9:0.0} s."));
        }

        if (BodyNs is null)
        {
            Set((report.ScoredBeginNs + report.ScoredEndNs) / 2, $"{(_isAnyJudged || outcome.Verdict != Verdict.Answered ? "No single event stands out" : WithoutAny())}; the middle of what is scored is shown.");
        }
    }

    private string WithoutAny() => _requirement.Definition.Figure switch
    {
        RequiredFigure.ReadingBias or RequiredFigure.ReadingSd or RequiredFigure.ReadingRms or RequiredFigure.ReadingWrongShare => "No failing run has a reading that could be judged",
        RequiredFigure.TimingBias or RequiredFigure.TimingSd or RequiredFigure.TimingP95 => "No failing run has a detection that pairs with an event",
        _ => "No single event stands out",
    };

    private void Set(long bodyNs, string what)
    {
        BodyNs = bodyNs;
        What = what;
    }
}
