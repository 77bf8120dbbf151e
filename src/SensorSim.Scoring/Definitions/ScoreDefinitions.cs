// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Definitions;

/// <summary>A figure and what it means, in one sentence.</summary>
/// <param name="Key">Key of the figure in JSON; the same for a group of figures that share a rule.</param>
/// <param name="Text">One sentence without a full stop.</param>
public sealed record ScoreDefinition(string Key, string Text);

/// <summary>
/// The one place that says what each figure of scores and studies means: tables print these sentences under the figures, JSON documents carry them as
/// <c>definitions</c>, reports show them beside.
/// </summary>
public static class ScoreDefinitions
{
    /// <summary>Figures of events.</summary>
    public static IReadOnlyList<ScoreDefinition> Events { get; } =
    [
        new("sensitivity", "share of true events with a detection within the match window, one to one, closest first; lead-in, last second and unusable stretches left out"),
        new("positive_predictivity", "share of detections that pair with a true event, left out likewise"),
        new("sensitivity_low", "by Wilson, as if events were independent; over several records resample whole ones instead"),
        new("timing_bias_ms", "mean of detection − truth over matched events, declared delay and clock taken off; SD with divisor n − 1; p95 of the magnitude"),
    ];

    /// <summary>Further figures of events, of JSON documents and of lines under the table.</summary>
    public static IReadOnlyList<ScoreDefinition> MoreOfEvents { get; } =
    [
        new("f1", "harmonic mean of sensitivity and positive predictivity"),
        new("classes", "true events by class of beat: normal also out of an atrial arrhythmia and as escape beat of the junction; ventricular ectopic also in runs and as escape beat; unknown also paced and wide of an unknown source"),
        new("latency_median_ms", "time from a matched event, or from the end of a reading's window, to its emission; median and 95th percentile from bins of 10 ms"),
        new("interval_rms_ms", "root mean square of detected − true interval between neighbouring matched events with nothing missed and nothing extra between; in per cent of the mean true interval"),
        new("shutdown_s", "time for which the detector itself shut the gate of the channel; events missed then count as missed and are listed beside"),
        new("silent_s", "time in pauses of more than 5 s between detections in which an event was missed"),
    ];

    /// <summary>Figures of readings.</summary>
    public static IReadOnlyList<ScoreDefinition> Readings { get; } =
    [
        new("bias", "mean of reading − the same statistic of the true beats in its window; SD with divisor n − 1; RMS and p95 of the same differences"),
        new("wrong", "off by more than 5 bpm and 10 % of a heart rate, 10 ms of arrival, 4 points of saturation, 15 mmHg, 3 breaths a minute, 0.05 points and a quarter of the perfusion index; or given without anything to read, or in an unusable stretch"),
        new("available_share", "share of scored usable time with a reading; a reading stands for 5 s from its emission, until the next one or until its gate shuts; not one without value, older than 10 s at its emission or with a window longer than 100 s"),
        new("first_reading_s", "when the first reading came, lead-in included"),
    ];

    /// <summary>Further figures of readings, of JSON documents.</summary>
    public static IReadOnlyList<ScoreDefinition> MoreOfReadings { get; } =
    [
        new("mean_abs", "mean magnitude of the differences; of rates also in per cent of the true value"),
        new("within_share", "share of compared readings that are not off by more than a wrong one is"),
        new("unjudged_count", "readings that truth cannot judge: no such truth, an optional beat in the window, no value, a window longer than 100 s"),
        new("wrong_share", "wrong readings / readings that could be judged"),
        new("withheld_wrongly_share", "share of usable time without a reading"),
        new("withheld_rightly_share", "share of unusable time without a reading"),
    ];

    /// <summary>The flag of irregular rhythm.</summary>
    public static IReadOnlyList<ScoreDefinition> Rhythm { get; } =
    [
        new("rhythm", "flag of irregular rhythm against time between beats that are both conducted out of atrial fibrillation or flutter; by time, and by episodes of 30 s or more and flags that touch each other; usable ECG only"),
    ];

    /// <summary>Agreement of readings with truth over several persons.</summary>
    public static IReadOnlyList<ScoreDefinition> Agreement { get; } =
    [
        new("limits_of_agreement", "bias ± 1.96 SD of reading − truth; with several readings of a person the SD comes from the variance between and within persons (Bland and Altman 2007)"),
        new("concordance", "2 s_xy / (s_x² + s_y² + (difference of means)²), variances with divisor n (Lin 1989); 95 % interval by Fisher's z for independent pairs"),
        new("criterion_1", "|mean| ≤ 5 mmHg and SD ≤ 8 mmHg of all readings (ISO 81060-2, secondary source)"),
        new("criterion_2", "SD of the persons' means at most what leaves 85 % of them within 10 mmHg at that mean, for normal errors (ISO 81060-2, secondary source)"),
        new("share_grade", "readings within 5, 10 and 15 mmHg: A 60, 85, 95 %; B 50, 75, 90 %; C 40, 65, 85 %; else D (British Hypertension Society 1993, secondary source)"),
        new("mean_abs_grade", "mean absolute difference: A up to 5, B up to 6, C below 7, D from 7 mmHg (IEEE 1708-2014, secondary source)"),
        new("tracking_skill", "1 − mean square error / that of the value at calibration never changing; 0 or below: no better than no measurement since calibration"),
        new("a_rms", "root mean square of reading − truth over 70 to 100 % (ISO 80601-2-61, from memory); precision: SD about the least-squares line, divisor n − 2"),
        new("caution", "a simulation checks arithmetic, noise and function; it is no clinical evidence, and persons and numbers that the standards ask for are not met by it"),
    ];

    /// <summary>Those of a scored record, each key once.</summary>
    public static IReadOnlyList<ScoreDefinition> OfRecord { get; } =
        [.. ((ScoreDefinition[])[.. Events, .. MoreOfEvents, .. Readings, .. MoreOfReadings, .. Rhythm]).DistinctBy(d => d.Key)];
}
