// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Rhythm;

namespace SensorSim.Scoring.Report;

/// <summary>How well the flag of irregular rhythm follows atrial fibrillation and flutter, by time and by episode. Undefined figures are null.</summary>
/// <remarks>
/// Truth are the classes of the beats: flutter of a fixed ratio is regular and still counts as arrhythmia, while frequent ectopic beats are irregular and
/// do not. Scored and usable time of the ECG only.
/// </remarks>
public sealed record RhythmScore
{
    internal RhythmScore(RhythmScorer scorer)
    {
        IrregularS = scorer.IrregularNs / 1e9;
        FlaggedIrregularS = scorer.FlaggedIrregularNs / 1e9;
        RegularS = scorer.RegularNs / 1e9;
        FlaggedRegularS = scorer.FlaggedRegularNs / 1e9;
        EpisodeCount = scorer.Episodes.EpisodeCount;
        FoundEpisodeCount = scorer.Episodes.FoundCount;
        FlagCount = scorer.Episodes.FlagCount;
        RightFlagCount = scorer.Episodes.RightFlagCount;
        DelayMeanS = scorer.Episodes.DelayMs.Mean / 1e3;
    }

    /// <summary>Time of true arrhythmia [s].</summary>
    public double IrregularS { get; }

    /// <summary>Of this, with the flag [s].</summary>
    public double FlaggedIrregularS { get; }

    /// <summary>Time without arrhythmia [s].</summary>
    public double RegularS { get; }

    /// <summary>Of this, with the flag [s].</summary>
    public double FlaggedRegularS { get; }

    /// <summary>Share of the time of arrhythmia with the flag [ratio].</summary>
    public double? Sensitivity => IrregularS == 0 ? null : FlaggedIrregularS / IrregularS;

    /// <summary>Share of the other time without the flag [ratio].</summary>
    public double? Specificity => RegularS == 0 ? null : 1 - (FlaggedRegularS / RegularS);

    /// <summary>Share of flagged time that is arrhythmia [ratio].</summary>
    public double? PositivePredictivity => FlaggedIrregularS + FlaggedRegularS == 0 ? null : FlaggedIrregularS / (FlaggedIrregularS + FlaggedRegularS);

    /// <summary>Episodes of 30 s or more.</summary>
    public long EpisodeCount { get; }

    /// <summary>Of these, with the flag at any time.</summary>
    public long FoundEpisodeCount { get; }

    /// <summary>Stretches of the flag.</summary>
    public long FlagCount { get; }

    /// <summary>Of these, with arrhythmia at any time.</summary>
    public long RightFlagCount { get; }

    /// <summary>Share of episodes found [ratio].</summary>
    public double? EpisodeSensitivity => EpisodeCount == 0 ? null : (double)FoundEpisodeCount / EpisodeCount;

    /// <summary>Share of flags that are right [ratio].</summary>
    public double? EpisodePositivePredictivity => FlagCount == 0 ? null : (double)RightFlagCount / FlagCount;

    /// <summary>Mean time from the begin of an episode to its flag, of those found [s].</summary>
    public double? DelayMeanS { get; }
}
