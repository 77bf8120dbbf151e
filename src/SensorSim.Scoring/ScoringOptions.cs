// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring;

/// <summary>How to score. The defaults are those of the project's definitions.</summary>
public sealed record ScoringOptions
{
    /// <summary>Largest distance of a truth and its detection, included [ns]; 1 ns to 10 s. 150 ms by EC57 (from memory).</summary>
    public long WindowNs { get; init; } = 150_000_000;

    /// <summary>How late a detection may come after the time it speaks of [ns], 0 to 1000 s; search-back takes several seconds.</summary>
    public long HoldingNs { get; init; } = 12_000_000_000;

    /// <summary>Start of the record that is not scored [ns]; null for <see cref="Matching.ScoredSpan.DefaultLeadInNs"/>.</summary>
    public long? LeadInNs { get; init; }

    /// <summary>End of the record that is not scored [ns].</summary>
    public long TailNs { get; init; } = 1_000_000_000;

    /// <summary>Truths of one row that may wait at a time, at least 2.</summary>
    public int TruthCapacity { get; init; } = 256;

    /// <summary>Detections of one row that may wait at a time, at least 2.</summary>
    public int DetectionCapacity { get; init; } = 1024;

    /// <summary>
    /// Rows that are shown even when the detector gives none of them; null for R peaks on the ECG and feet by tangents on every
    /// optical channel of the stream.
    /// </summary>
    public IReadOnlyList<ExpectedRow>? ExpectedRows { get; init; }

    /// <summary>Throws when a value is out of its range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Names the value and its range.</exception>
    public void Validate()
    {
        Check(WindowNs, 1, 10_000_000_000, nameof(WindowNs));
        Check(HoldingNs, 0, 1_000_000_000_000, nameof(HoldingNs));
        Check(LeadInNs ?? 0, 0, long.MaxValue / 4, nameof(LeadInNs));
        Check(TailNs, 0, long.MaxValue / 4, nameof(TailNs));
        Check(TruthCapacity, 2, 1_000_000, nameof(TruthCapacity));
        Check(DetectionCapacity, 2, 1_000_000, nameof(DetectionCapacity));
    }

    private static void Check(long value, long low, long high, string name)
    {
        if (value < low || value > high)
        {
            throw new ArgumentOutOfRangeException(name, value, $"{name} must be {low} to {high}.");
        }
    }
}

/// <summary>A row of scores that a detector is expected to fill.</summary>
/// <param name="Channel">Channel of the events.</param>
/// <param name="Kind">Their kind.</param>
public readonly record struct ExpectedRow(ChannelName Channel, MarkKind Kind);
