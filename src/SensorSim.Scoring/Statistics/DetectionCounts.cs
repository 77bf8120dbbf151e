// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics;

/// <summary>What beat-by-beat matching counts, and the figures that follow from it.</summary>
/// <remarks>There are no true negatives between beats, so there is no specificity. Source: ANSI/AAMI EC57, from memory.</remarks>
/// <param name="Matched">Beats that were found.</param>
/// <param name="Missed">Beats that were not.</param>
/// <param name="Extra">Detections where there was no beat.</param>
public readonly record struct DetectionCounts(long Matched, long Missed, long Extra)
{
    /// <summary>Beats that were there.</summary>
    public long Reference => Matched + Missed;

    /// <summary>Matched / (matched + missed) [ratio]; null without a beat.</summary>
    public double? Sensitivity => Ratio(Matched, Matched + Missed);

    /// <summary>Matched / (matched + extra) [ratio]; null without a detection.</summary>
    public double? PositivePredictivity => Ratio(Matched, Matched + Extra);

    /// <summary>Harmonic mean of the two [ratio]; null when there was neither beat nor detection.</summary>
    public double? F1 => Ratio(2 * Matched, (2 * Matched) + Missed + Extra);

    /// <summary>The counts of several records in one: each beat weighs the same ("gross" figures).</summary>
    /// <param name="records">Counts, one per record.</param>
    public static DetectionCounts Gross(IEnumerable<DetectionCounts> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        DetectionCounts sum = default;
        foreach (DetectionCounts r in records)
        {
            sum = new DetectionCounts(sum.Matched + r.Matched, sum.Missed + r.Missed, sum.Extra + r.Extra);
        }

        return sum;
    }

    /// <summary>Mean of a figure over records: each record weighs the same ("average" figures).</summary>
    /// <param name="records">Counts, one per record.</param>
    /// <param name="figure">The figure; records where it is undefined are left out.</param>
    /// <returns>The mean [ratio]; null when it is undefined in every record.</returns>
    public static double? Average(IEnumerable<DetectionCounts> records, Func<DetectionCounts, double?> figure)
    {
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(figure);
        double sum = 0;
        long count = 0;
        foreach (DetectionCounts r in records)
        {
            if (figure(r) is double value)
            {
                sum += value;
                count++;
            }
        }

        return count == 0 ? null : sum / count;
    }

    private static double? Ratio(long part, long whole) => whole == 0 ? null : (double)part / whole;
}
