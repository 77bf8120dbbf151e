// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Edf;
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;

namespace SensorSim.Studies.Running;

/// <summary>Scores marks in a file against truth in a file.</summary>
public sealed record FileScoring
{
    /// <summary>Path of <c>truth.csv</c>, or of a list of beats with the columns of <see cref="BeatListCsvReader"/>.</summary>
    public required string TruthPath { get; init; }

    /// <summary>Path of <c>detections.csv</c>.</summary>
    public required string MarksPath { get; init; }

    /// <summary>Path of <c>acquisition.csv</c>; null when delays and unusable stretches are as the recording itself says, or not known.</summary>
    public string? AcquisitionPath { get; init; }

    /// <summary>Path of a list of stretches that are not scored; null when there is none.</summary>
    public string? ExcludedPath { get; init; }

    /// <summary>Sampling rate that a list of beats counts in [Hz]; null to use its times.</summary>
    public int? RateHz { get; init; }

    /// <summary>Length of the record [s]; null: as acquisition.csv says, or up to the last row of truth.</summary>
    public double? DurationS { get; init; }

    /// <summary>Lead-in that is not scored [s]; null for the default.</summary>
    public double? LeadInS { get; init; }

    /// <summary>Match window on either side [ms].</summary>
    public double WindowMs { get; init; } = 150;

    /// <summary>Requirements and limits.</summary>
    public IEnumerable<(RequirementDefinition Definition, double Limit)> Requirements { get; init; } = [];

    /// <summary>Reads the files and scores.</summary>
    /// <exception cref="SensorSim.Files.InputFileException">A file is not what it should be.</exception>
    public RunSummary Score()
    {
        var survey = FileSurvey.Of(TruthPath, RateHz, MarksPath);
        (List<AcquisitionRow> acquisition, List<UnusableStretch> unusable) = Acquisition();
        long? recordedNs = AcquisitionPath is null && acquisition.Count + unusable.Count == 0 ? LengthOf(TruthPath) : null;
        long durationNs = DurationS is double seconds ? (long)Math.Round(seconds * 1e9) : recordedNs ?? RecordEndNs(acquisition) ?? survey.LastNs + 1;
        List<ChannelDelay> channels = Channels(acquisition);
        AddExcluded(unusable);
        unusable.Sort((a, b) => channels[(int)a.Channel].BodyNs(a.BeginNs).CompareTo(channels[(int)b.Channel].BodyNs(b.BeginNs)));
        var scorer = new Scorer(channels, durationNs, new ScoringOptions
        {
            WindowNs = (long)Math.Round(WindowMs * 1e6),
            LeadInNs = LeadInS is double leadIn ? (long)Math.Round(leadIn * 1e9) : null,
            ExpectedRows = survey.ExpectedRows,
        });
        using IRowReader<TruthEvent> truth = TruthFile.Open(TruthPath, RateHz);
        ScoreReport report = scorer.ScoreAll(
            truth.ReadAll().Where(t => t.TimeNs < durationNs),
            MarksFile.Read(MarksPath).Where(m => m.TimeNs < durationNs),
            unusable);
        if (report.LateCount > 0)
        {
            throw new InputFileException(
                MarksPath, 0, 0, $"these marks, or the rows of {TruthPath}, lie more than 12 s out of the order of time; sort both files by time.");
        }

        return new RunSummary
        {
            Title = Path.GetFileName(MarksPath),
            Input = TruthPath,
            DurationS = durationNs / 1e9,
            Verdict = survey.MarkCount == 0 ? Verdict.Silent : Verdict.Answered,
            VerdictReason = survey.MarkCount == 0 ? $"{MarksPath} holds no mark at all." : "",
            Report = report,
            Requirements = RequirementResult.Judge(Requirements, report),
        };
    }

    // A recording of others declares nothing but its length, and a file of annotations alone not even that.
    private static long? LengthOf(string path)
    {
        try
        {
            using EdfRecordingReader? recording = TruthFile.IsEdf(path) ? new EdfRecordingReader(path) : null;
            return recording?.Format.Clock.Nanoseconds(recording.EndTick);
        }
        catch (InputFileException)
        {
            return null;
        }
    }

    // By number of the channel.
    private List<ChannelDelay> Channels(List<AcquisitionRow> acquisition) =>
        [.. Enum.GetValues<ChannelName>().Select(name => RecordClocks.DelayOf(name, acquisition, AcquisitionPath ?? TruthPath))];

    // The clock segments of a record reach to its end.
    private static long? RecordEndNs(List<AcquisitionRow> acquisition) =>
        acquisition.Where(r => r.Item == AcquisitionItems.ClockSegmentPpm && r.EndNs > 0).Max(r => r.EndNs);

    // Stretches are what there may be hundreds of thousands of, and they stand in order of their ends: scoring needs that of their begins, so all are kept, but
    // of each only its channel and its times.
    private (List<AcquisitionRow> Rows, List<UnusableStretch> Unusable) Acquisition()
    {
        var rows = new List<AcquisitionRow>();
        var unusable = new List<UnusableStretch>();
        using IRowReader<AcquisitionRow>? reader = AcquisitionPath is not null ? new AcquisitionCsvReader(AcquisitionPath) : AcquisitionWithin.Open(TruthPath);
        foreach (AcquisitionRow row in reader?.ReadAll() ?? [])
        {
            if (row.IsUnusable)
            {
                unusable.Add(new UnusableStretch(row.Channel, row.BeginNs, row.EndNs ?? long.MaxValue / 4));
            }
            else if (RecordClocks.IsNeeded(row))
            {
                rows.Add(row);
            }
        }

        return (rows, unusable);
    }

    private void AddExcluded(List<UnusableStretch> unusable)
    {
        if (ExcludedPath is null)
        {
            return;
        }

        using var reader = new IntervalsCsvReader(ExcludedPath);
        foreach (IntervalRow row in reader.ReadAll())
        {
            foreach (ChannelName channel in Enum.GetValues<ChannelName>())
            {
                unusable.Add(new UnusableStretch(channel, row.BeginNs, row.EndNs));
            }
        }
    }
}
