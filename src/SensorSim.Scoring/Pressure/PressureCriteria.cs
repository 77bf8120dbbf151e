// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Pressure;

/// <summary>The two criteria of ISO 81060-2 on the errors of a pressure: of all readings, and of the means of the subjects.</summary>
/// <remarks>
/// Source: ISO 81060-2:2018 as quoted by secondary sources. The standard asks for 85 subjects with 3 pairs each and for shares of sex and pressure:
/// no simulation meets that, so a criterion met here is arithmetic on simulated errors and no evidence about people.
/// </remarks>
public sealed record PressureCriteria
{
    /// <summary>Largest magnitude of the mean error in criterion 1 [mmHg].</summary>
    public const double MeanLimitMmhg = 5;

    /// <summary>Largest standard deviation in criterion 1 [mmHg].</summary>
    public const double SdLimitMmhg = 8;

    /// <summary>Subjects that the standard asks for.</summary>
    public const int SubjectsOfStandard = 85;

    private PressureCriteria()
    {
    }

    /// <summary>Readings.</summary>
    public required long Count { get; init; }

    /// <summary>Subjects with a reading.</summary>
    public required int SubjectCount { get; init; }

    /// <summary>Mean error of all readings [mmHg].</summary>
    public required double MeanMmhg { get; init; }

    /// <summary>Standard deviation of all errors, divisor n − 1 [mmHg]; null with one reading.</summary>
    public required double? SdMmhg { get; init; }

    /// <summary>Mean of the subjects' mean errors [mmHg].</summary>
    public required double SubjectMeanMmhg { get; init; }

    /// <summary>Standard deviation of the subjects' mean errors, divisor k − 1 [mmHg]; null with one subject.</summary>
    public required double? SubjectSdMmhg { get; init; }

    /// <summary>Whether |mean| ≤ 5 and SD ≤ 8 mmHg; null when the SD is unknown.</summary>
    public bool? MeetsFirst => SdMmhg is double sd ? Math.Abs(MeanMmhg) <= MeanLimitMmhg && sd <= SdLimitMmhg : null;

    /// <summary>Largest tolerated <see cref="SubjectSdMmhg"/> at this mean [mmHg].</summary>
    public double SubjectSdLimitMmhg => SubjectMeanLimit.SdLimitMmhg(SubjectMeanMmhg);

    /// <summary>Whether the standard deviation of the subjects' means keeps its limit, and their mean 5 mmHg; null with one subject.</summary>
    public bool? MeetsSecond => SubjectSdMmhg is double sd
        ? Math.Abs(SubjectMeanMmhg) <= MeanLimitMmhg && sd <= SubjectSdLimitMmhg
        : null;

    /// <summary>The criteria on errors by subject.</summary>
    /// <param name="subjects">Moments of the errors of each subject [mmHg]; those without any are left out.</param>
    /// <returns>The criteria; null without a reading.</returns>
    public static PressureCriteria? Of(IEnumerable<Moments> subjects)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        Moments[] known = [.. subjects.Where(s => s.Count > 0)];
        if (known.Length == 0)
        {
            return null;
        }

        long n = known.Sum(s => s.Count);
        double mean = known.Sum(s => s.Count * s.Mean) / n;
        var all = new Moments(n, mean, known.Sum(s => s.SumOfSquares + (s.Count * (s.Mean - mean) * (s.Mean - mean))));
        var means = Moments.Of([.. known.Select(s => s.Mean)]);
        return new PressureCriteria
        {
            Count = n, SubjectCount = known.Length, MeanMmhg = mean, SdMmhg = all.Sd, SubjectMeanMmhg = means.Mean, SubjectSdMmhg = means.Sd,
        };
    }
}
