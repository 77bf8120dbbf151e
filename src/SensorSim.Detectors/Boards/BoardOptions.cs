// SPDX-License-Identifier: MIT
using SensorSim.Links;
using SensorSim.Links.Pacing;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Boards;

/// <summary>How a board is used as a detector.</summary>
public sealed record BoardOptions
{
    /// <summary>What the board is told of sensor and wearer; null: nothing.</summary>
    public DetectorCalibration? Calibration { get; init; }

    /// <summary>Constants of the library (<see cref="Choices.LibraryConstants"/>) that differ from their usual values, by name; null: none.</summary>
    public IReadOnlyDictionary<string, double>? Constants { get; init; }

    /// <summary>Longest time for the first answer to <c>hello</c> [s].</summary>
    public double HelloS { get; init; } = 5;

    /// <summary>Longest time without any progress while samples wait, before the board counts as hanging [s].</summary>
    public double HangS { get; init; } = 10;

    /// <summary>Says when samples are due; null: as fast as the board takes them.</summary>
    public Pacer? Pacer { get; init; }

    /// <summary>Once set, nothing waits for the pacer any more: what is left of the block at hand goes out at once, as when a user interrupts.</summary>
    public CancellationToken Hurry { get; init; }

    /// <summary>An answer that comes later than this after its last sample was due has missed its deadline [ms]; only with a pacer.</summary>
    public double DeadlineMs { get; init; } = 1000;

    /// <summary>Share of missed deadlines from which on the board counts as late, 0 to 1.</summary>
    public double LateShare { get; init; } = 0.01;

    /// <summary>Told each line of the board's log as it comes, on the thread that uses the detector; null: nobody.</summary>
    public Action<BoardLogLine>? OnLog { get; init; }

    /// <summary>Opens the link again after it was lost, waiting up to the time given; null when it did not come back. Without: a lost link is the end.</summary>
    public Func<TimeSpan, ILink?>? Reopen { get; init; }

    /// <summary>How long a lost link is waited for [s].</summary>
    public double ReopenS { get; init; } = 30;

    /// <summary>What sentences call it.</summary>
    internal string Subject { get; init; } = "The board";

    /// <summary>Why the link of a program is gone, as a sentence without its stop; null: what the link says.</summary>
    internal Func<LinkLostException, string>? WhyGone { get; init; }
}
