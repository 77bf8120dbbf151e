// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Oxygen;
using SensorSim.Scoring.Pressure;
using SensorSim.Scoring.Statistics;
using SensorSim.Scoring.Statistics.Agreement;
using SensorSim.Scoring.Statistics.Resampling;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Agreement;

/// <summary>Agreement of a kind of reading with truth over persons, by the published methods. Figures that are undefined are null.</summary>
/// <remarks>Definitions stand in <see cref="Scoring.Definitions.ScoreDefinitions.Agreement"/>. A simulation is no clinical evidence.</remarks>
public sealed record AgreementFigures
{
    private AgreementFigures()
    {
    }

    /// <summary>Kind of reading.</summary>
    public required MarkKind Kind { get; init; }

    /// <summary>All pairs as one.</summary>
    public required PairSums All { get; init; }

    /// <summary>Persons with a reading.</summary>
    public required int SubjectCount { get; init; }

    /// <summary>Limits of agreement as if all readings were independent; too narrow an interval when persons differ.</summary>
    public required LimitsOfAgreement? Pooled { get; init; }

    /// <summary>Limits of agreement with several readings of each person; null with one person.</summary>
    public required RepeatedAgreement? Repeated { get; init; }

    /// <summary>95 % interval of the bias, persons resampled whole (BCa); null with one person.</summary>
    public required Interval? BiasInterval { get; init; }

    /// <summary>95 % interval of the lower limit of <see cref="Repeated"/>, persons resampled whole.</summary>
    public required Interval? LowerLimitInterval { get; init; }

    /// <summary>95 % interval of the upper limit of <see cref="Repeated"/>, persons resampled whole.</summary>
    public required Interval? UpperLimitInterval { get; init; }

    /// <summary>Concordance of all pairs.</summary>
    public required ConcordanceCorrelation? Concordance { get; init; }

    /// <summary>Criteria of a pressure; null for other kinds.</summary>
    public required PressureCriteria? Criteria { get; init; }

    /// <summary>Readings within 5, 10 and 15 mmHg; null for other kinds.</summary>
    public required PressureBands? Bands { get; init; }

    /// <summary>Tracking of changes since calibration; null for other kinds, or when no calibration is known.</summary>
    public required ChangeTracking? Tracking { get; init; }

    /// <summary>Accuracy of a saturation; null for other kinds.</summary>
    public required SaturationAccuracy? Saturation { get; init; }

    /// <summary>Grade by the mean absolute difference of a pressure; null for other kinds.</summary>
    public PressureGrade? MeanAbsoluteGrade => Bands is not null && All.MeanAbsolute is double d ? PressureBands.GradeOfMeanAbsolute(d) : null;

    /// <summary>The figures of collected pairs.</summary>
    /// <param name="pairs">The pairs.</param>
    /// <param name="calibrationOf">Value at calibration of a person, in the kind's unit; null, or null for a person, when it is unknown.</param>
    /// <param name="options">How persons are resampled; null for the defaults.</param>
    public static AgreementFigures Of(ReadingPairs pairs, Func<int, double?>? calibrationOf = null, BootstrapOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        IReadOnlyList<SubjectPairs> subjects = pairs.Subjects;
        Moments[] moments = [.. subjects.Select(s => s.Sums.Differences)];
        var all = new PairSums();
        foreach (SubjectPairs subject in subjects)
        {
            all.Add(subject.Sums);
        }

        bool isPressure = pairs.Kind is MarkKind.SystolicMmhg or MarkKind.DiastolicMmhg or MarkKind.MeanMmhg;
        var repeated = RepeatedAgreement.OfMoments(moments);
        var picked = new Moments[moments.Length];
        return new AgreementFigures
        {
            Kind = pairs.Kind,
            All = all,
            SubjectCount = subjects.Count,
            Pooled = all.Sd is double sd ? LimitsOfAgreement.OfMoments(all.Count, all.Bias!.Value, sd) : null,
            Repeated = repeated,
            BiasInterval = Resampled(moments.Length, chosen => BiasOf(moments, chosen), options),
            LowerLimitInterval = repeated is null ? null : Resampled(moments.Length, chosen => AgreementOf(moments, chosen, picked)?.LowerLimit, options),
            UpperLimitInterval = repeated is null ? null : Resampled(moments.Length, chosen => AgreementOf(moments, chosen, picked)?.UpperLimit, options),
            Concordance = ConcordanceCorrelation.Of(all),
            Criteria = isPressure ? PressureCriteria.Of(moments) : null,
            Bands = isPressure ? pairs.Bands : null,
            Tracking = isPressure && calibrationOf is not null ? TrackingOf(subjects, calibrationOf) : null,
            Saturation = pairs.Kind == MarkKind.Spo2Percent ? pairs.Saturation : null,
        };
    }

    private static Interval? Resampled(int subjects, Func<int[], double?> figure, BootstrapOptions? options) =>
        subjects < 2 ? null : Bootstrap.Of(subjects, figure, options)?.Bca();

    private static double? BiasOf(Moments[] subjects, int[] chosen)
    {
        long count = 0;
        double sum = 0;
        foreach (int i in chosen)
        {
            count += subjects[i].Count;
            sum += subjects[i].Count * subjects[i].Mean;
        }

        return count == 0 ? null : sum / count;
    }

    private static RepeatedAgreement? AgreementOf(Moments[] subjects, int[] chosen, Moments[] picked)
    {
        for (int i = 0; i < chosen.Length; i++)
        {
            picked[i] = subjects[chosen[i]];
        }

        return RepeatedAgreement.OfMoments(picked.AsSpan(0, chosen.Length));
    }

    private static ChangeTracking? TrackingOf(IReadOnlyList<SubjectPairs> subjects, Func<int, double?> calibrationOf)
    {
        var tracking = new ChangeTracking();
        foreach (SubjectPairs subject in subjects)
        {
            if (calibrationOf(subject.Subject) is double calibration)
            {
                tracking.Add(subject.Sums, calibration);
            }
        }

        return tracking.Count == 0 ? null : tracking;
    }
}
