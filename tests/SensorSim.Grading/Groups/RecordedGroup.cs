// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Files.Recordings;
using SensorSim.Files.Rows;
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Grading.Groups;

/// <summary>First half of the recorded ambulatory ECG; rows that are not firm count neither way, as in the regression test.</summary>
internal sealed class RecordedGroup : GradingGroup
{
    private const int RateHz = 360;
    private const long Second = 1_000_000_000;

    /// <inheritdoc/>
    public override string Name => "recorded";

    /// <inheritdoc/>
    public override bool IsOfScenarios => false;

    /// <inheritdoc/>
    public override string Title => "Recorded ECG";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        using var stream = new ColumnCsvSource(
            Repository.PathOf("waveforms", "recorded", "ambulatory-ecg.csv"), new ColumnCsvOptions { RateHz = RateHz, UnitPerCode = 0.005 });
        var truth = new EventRing<TruthEvent>(4096);
        using (IRowReader<TruthEvent> beats = TruthFile.Open(Repository.PathOf("waveforms", "recorded", "ambulatory-ecg-beats.csv"), RateHz))
        {
            foreach (TruthEvent beat in beats.ReadAll())
            {
                truth.Add(beat);
            }
        }

        // Scored from 15 to 150 s: where learning is over, and as far as the list of beats goes.
        var scorer = new Scorer(stream.Format, 150 * Second, new ScoringOptions { LeadInNs = 15 * Second, TailNs = 0, TruthCapacity = 4096 });
        using (var unreadable = new IntervalsCsvReader(Repository.PathOf("waveforms", "recorded", "ambulatory-ecg-unreadable.csv")))
        {
            foreach (IntervalRow row in unreadable.ReadAll())
            {
                scorer.AddUnusable(ChannelName.Ecg, row.BeginNs, row.EndNs);
            }
        }

        using var detector = new LibraryDetector();
        ScoreReport report = new Runner(stream, truth, detector, scorer).Run().Report!;
        var pooled = new PooledEvents([report], ChannelName.Ecg, MarkKind.RPeak);
        return
        [
            new Judge().AtMost("missed", pooled.DetectionCount == 0 ? null : pooled.Counts.Missed, 1, "").AtMost("extra", pooled.Counts.Extra, 1, "")
                .Row("ambulatory ECG, 15 to 150 s, firm rows", $"{pooled.CountsText}; {pooled.TimingText}"),
        ];
    }
}
