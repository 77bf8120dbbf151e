// SPDX-License-Identifier: MIT
using SensorSim.Links.Pacing;

namespace SensorSim.Detectors.Boards;

/// <summary>How long answers take: from the moment that the frame with their last sample had been written to their arrival.</summary>
public sealed class AnswerLatency
{
    /// <summary>The latencies of the marks.</summary>
    public TimeHistogram Histogram { get; } = new();

    /// <summary>Marks timed.</summary>
    public long Count => Histogram.Count;

    /// <summary>The longest latency [ms]; 0 without marks.</summary>
    public double LongestMs => Histogram.MaximumUs / 1000.0;

    /// <summary>Answers held against the deadline: those of a paced run, and the taking of each block.</summary>
    public long JudgedCount { get; private set; }

    /// <summary>Of these, those that came later than the deadline after their last sample was due.</summary>
    public long MissedDeadlines { get; private set; }

    /// <summary>Share of <see cref="MissedDeadlines"/> among <see cref="JudgedCount"/>; 0 when none was judged.</summary>
    public double MissedShare => JudgedCount == 0 ? 0 : (double)MissedDeadlines / JudgedCount;

    /// <summary>The latency that a share of the marks does not exceed [ms], right to 1/32; 0 without marks.</summary>
    /// <param name="percent">The share [%], 0 to 100.</param>
    public double PercentileMs(double percent) => Histogram.PercentileUs(percent) / 1000.0;

    /// <summary>Holds an answer against the deadline.</summary>
    internal void Judge(bool isLate)
    {
        JudgedCount++;
        MissedDeadlines += isLate ? 1 : 0;
    }

    internal void Clear()
    {
        Histogram.Clear();
        JudgedCount = 0;
        MissedDeadlines = 0;
    }
}
