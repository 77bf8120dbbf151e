// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Beats;

/// <summary>A row of a <see cref="RecordTable"/>.</summary>
/// <param name="Name">Name of the record.</param>
/// <param name="Counts">Matched, missed and extra.</param>
/// <param name="ExcludedReason">Why it is in no total; empty when it is.</param>
public sealed record RecordRow(string Name, DetectionCounts Counts, string ExcludedReason = "");

/// <summary>Scores record by record, with the two rows at the end that the published protocol asks for.</summary>
/// <remarks>
/// Source: ANSI/AAMI EC57, from memory. Gross: counts of all records pooled, each beat weighs the same. Average: mean of the records' figures, each record
/// weighs the same; a record in which a figure is undefined is left out of its mean. Excluded records stay in the table, with the reason.
/// </remarks>
public sealed class RecordTable
{
    private readonly List<RecordRow> _rows = [];

    /// <summary>The rows, in the order in which they were added.</summary>
    public IReadOnlyList<RecordRow> Rows => _rows;

    /// <summary>Records in the totals.</summary>
    public int IncludedCount => Included.Count();

    /// <summary>Counts of all included records together.</summary>
    public DetectionCounts Gross => DetectionCounts.Gross(Included);

    /// <summary>Mean sensitivity of the included records [ratio]; null when undefined in all.</summary>
    public double? AverageSensitivity => DetectionCounts.Average(Included, r => r.Sensitivity);

    /// <summary>Mean positive predictivity of the included records [ratio]; null when undefined in all.</summary>
    public double? AveragePositivePredictivity => DetectionCounts.Average(Included, r => r.PositivePredictivity);

    private IEnumerable<DetectionCounts> Included => _rows.Where(r => r.ExcludedReason.Length == 0).Select(r => r.Counts);

    /// <summary>Adds a record.</summary>
    /// <param name="name">Its name; not empty, each once.</param>
    /// <param name="counts">Its counts.</param>
    /// <param name="excludedReason">Why it is in no total; empty when it is.</param>
    /// <exception cref="ArgumentException">The name is empty or stands already.</exception>
    public void Add(string name, DetectionCounts counts, string excludedReason = "")
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        ArgumentNullException.ThrowIfNull(excludedReason);
        if (_rows.Exists(r => string.Equals(r.Name, name, StringComparison.Ordinal)))
        {
            throw new ArgumentException($"The record {name} stands twice.", nameof(name));
        }

        _rows.Add(new RecordRow(name, counts, excludedReason));
    }
}
