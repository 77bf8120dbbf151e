// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Report;

/// <summary>Scores of one kind of event over several records: counts added up, timing as if all errors stood in one list.</summary>
internal sealed class PooledEvents
{
    private readonly PooledErrors _timing = new();

    /// <summary>Pools a row of several reports; records without it add nothing.</summary>
    public PooledEvents(IEnumerable<ScoreReport> reports, ChannelName channel, MarkKind kind)
    {
        foreach (EventScore score in reports.Select(r => r.Find(channel, kind)).OfType<EventScore>())
        {
            Counts = DetectionCounts.Gross([Counts, score.Counts]);
            DetectionCount += score.DetectionCount;
            _timing.Add(score.TimedCount, score.TimingBiasMs, score.TimingSdMs);
        }
    }

    /// <summary>Matched, missed and extra.</summary>
    public DetectionCounts Counts { get; }

    /// <summary>Detections, scored or not; 0 when the detector gives none of the kind.</summary>
    public long DetectionCount { get; }

    /// <summary>Share of events found [%]; null when the detector gives none of the kind.</summary>
    public double? SensitivityPercent => DetectionCount == 0 ? null : Counts.Sensitivity * 100;

    /// <summary>Share of detections that are right [%].</summary>
    public double? PositivePredictivityPercent => Counts.PositivePredictivity * 100;

    /// <summary>Mean error [ms].</summary>
    public double? BiasMs => _timing.Mean;

    /// <summary>Standard deviation of the error [ms].</summary>
    public double? SdMs => _timing.Sd;

    /// <summary>Counts and shares with their intervals.</summary>
    public string CountsText => DetectionCount == 0
        ? "-"
        : FormattableString.Invariant($"Se {Share(Counts.Matched, Counts.Reference)}, +P {Share(Counts.Matched, Counts.Matched + Counts.Extra)}; {Counts.Reference} true, {Counts.Missed} missed, {Counts.Extra} extra");

    /// <summary>Bias and standard deviation.</summary>
    public string TimingText => BiasMs is null ? "-" : $"bias {Figures.Text(BiasMs)} ms, SD {Figures.Text(SdMs)} ms";

    /// <summary>A share with its interval by Wilson, in per cent.</summary>
    public static string Share(long part, long whole) => Proportions.Wilson(part, whole) is Interval i
        ? FormattableString.Invariant($"{100.0 * part / whole:0.00} % ({100 * i.Low:0.00} to {100 * i.High:0.00})")
        : "undefined";
}
