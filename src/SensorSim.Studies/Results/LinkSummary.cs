// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Boards;

namespace SensorSim.Studies.Results;

/// <summary>How a run over a link went, apart from the answers: what both ends counted, how late answers and frames were, what the board tells of itself.</summary>
public sealed record LinkSummary
{
    /// <summary>Name of the link.</summary>
    public required string Link { get; init; }

    /// <summary>What the board says of itself; null when it never did.</summary>
    public BoardIdentity? Board { get; init; }

    /// <summary>Stream seconds in one second; null: as fast as the board took them.</summary>
    public double? Speed { get; init; }

    /// <summary>Begin of what was sent [s], nominal device time.</summary>
    public double BeginS { get; init; }

    /// <summary>Whether the run was stopped before its end.</summary>
    public bool IsStopped { get; init; }

    /// <summary>What went over the line.</summary>
    public required BoardCounts Counts { get; init; }

    /// <summary>From the writing of the last sample that an answer needed to its arrival [ms].</summary>
    public required Percentiles LatencyMs { get; init; }

    /// <summary>An answer that came later than this after its last sample was due missed its deadline [ms].</summary>
    public double DeadlineMs { get; init; }

    /// <summary>Answers held against the deadline; 0 where nothing was due at a time.</summary>
    public long JudgedCount { get; init; }

    /// <summary>Of these, those that missed it.</summary>
    public long MissedDeadlines { get; init; }

    /// <summary>How much later than due frames were written [ms]; null when nothing was due at a time.</summary>
    public Percentiles? PacingErrorMs { get; init; }

    /// <summary>What was done to frames on purpose, by direction; none when nothing was.</summary>
    public IReadOnlyList<LinkDamage> Damage { get; init; } = [];

    /// <summary>What the board measured about itself.</summary>
    public IReadOnlyList<LinkFigure> Figures { get; init; } = [];

    /// <summary>Lines of the board's log.</summary>
    public long LogLineCount { get; init; }
}

/// <summary>Some percentiles of many times.</summary>
/// <param name="Count">How many times.</param>
/// <param name="P50">Not exceeded by half of them.</param>
/// <param name="P90">Not exceeded by 90 %.</param>
/// <param name="P99">Not exceeded by 99 %.</param>
/// <param name="Largest">The largest.</param>
public readonly record struct Percentiles(long Count, double P50, double P90, double P99, double Largest);

/// <summary>What was done on purpose to the frames of one direction.</summary>
/// <param name="Direction"><c>to_board</c> or <c>from_board</c>.</param>
/// <param name="Counts">How many frames, by what was done; also <c>broken_pieces</c>, what a receiver must count as damaged.</param>
public sealed record LinkDamage(string Direction, IReadOnlyList<(string What, long Count)> Counts);

/// <summary>Something that a board measured about itself.</summary>
/// <param name="Name">What, with its unit.</param>
/// <param name="Index">Which of several; null when there is only one.</param>
/// <param name="Value">The value.</param>
public readonly record struct LinkFigure(string Name, int? Index, long Value);
