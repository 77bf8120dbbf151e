// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Comparisons;

/// <summary>A figure on one channel in which two detectors are compared.</summary>
/// <param name="Definition">The figure.</param>
/// <param name="Channel">The channel.</param>
/// <param name="Limit">The requirement's limit; null when nothing is required of it.</param>
public sealed record ComparedFigure(RequirementDefinition Definition, ChannelName Channel, double? Limit)
{
    private static readonly string[] s_always =
    [
        "r_peak_sensitivity_min", "r_peak_positive_predictivity_min", "r_peak_timing_sd_ms_max",
        "pulse_foot_tangent_sensitivity_min", "pulse_foot_tangent_positive_predictivity_min", "pulse_foot_tangent_timing_sd_ms_max",
        "heart_rate_rms_bpm_max",
    ];

    /// <summary>Name of the figure: the requirement's key without the word for its limit, for example <c>r_peak_sensitivity</c>.</summary>
    public string Name => Definition.Key.Key is var key && (key.EndsWith("_min", StringComparison.Ordinal) || key.EndsWith("_max", StringComparison.Ordinal)) ? key[..^4] : key;

    /// <summary>Unit; empty for a share.</summary>
    public string Unit => Definition.Key.Unit;

    /// <summary>Name and channel in words, for example <c>r_peak_sensitivity, ecg</c>.</summary>
    public string Words => $"{Name}, {Channel.Text()}";

    /// <summary>As a requirement; without a limit nothing may be asked of that.</summary>
    public RequirementOnRow OnRow => new(Definition, Limit ?? 0, Channel);

    /// <summary>Whether the figure has a sign, so that its magnitude is compared.</summary>
    public bool HasSign => Definition.Figure is RequiredFigure.TimingBias or RequiredFigure.ReadingBias;

    /// <summary>What the difference of a pair of figures is: second less first, of magnitudes for figures with a sign.</summary>
    /// <param name="first">The first's figure.</param>
    /// <param name="second">The second's figure.</param>
    public double? Difference(double? first, double? second) => HasSign ? Math.Abs(second ?? double.NaN) - Math.Abs(first ?? double.NaN) is var d && !double.IsNaN(d) ? d : null : second - first;

    /// <summary>How much better the second is, from the difference.</summary>
    /// <param name="difference">See <see cref="Difference"/>.</param>
    public double Gain(double difference) => OnRow.IsLeast ? difference : -difference;

    /// <summary>
    /// The figures of a study: its requirements on every channel that has such rows, then those that are always compared: sensitivity, positive predictivity and
    /// timing spread of R peaks and pulse feet, root mean square of the heart rate.
    /// </summary>
    /// <param name="results">Plan and rows.</param>
    public static IReadOnlyList<ComparedFigure> Of(StudyResults results)
    {
        ArgumentNullException.ThrowIfNull(results);
        ComparedFigure[] required = [.. results.Requirements.Select(r => new ComparedFigure(r.Definition, r.Channel, r.Limit))];
        (ChannelName Channel, MarkKind Kind)[] pairs =
        [
            .. results.Rows.SelectMany(r => r.Events.Select(e => (e.Channel, e.Kind)).Concat(r.Readings.Select(e => (e.Channel, e.Kind)))).Distinct().Order(),
        ];
        IEnumerable<ComparedFigure> others =
            from key in s_always
            let definition = RequirementKeys.All.First(r => r.Key.Key == key)
            from pair in pairs
            where pair.Kind == definition.Kind && !required.Any(r => r.Definition == definition && r.Channel == pair.Channel)
            select new ComparedFigure(definition, pair.Channel, null);
        return [.. required, .. others];
    }
}
