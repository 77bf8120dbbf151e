// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.Boards.Capturing;

/// <summary>How a board's own samples are captured.</summary>
public sealed record CaptureOptions
{
    /// <summary>Length of the capture [s], above 0; null: until <see cref="Stop"/>.</summary>
    public double? DurationS { get; init; }

    /// <summary>Longest time without a samples frame before the board counts as gone [s].</summary>
    public double SilenceS { get; init; } = 10;

    /// <summary>Longest time for the first answer to <c>hello</c> [s].</summary>
    public double HelloS { get; init; } = 5;

    /// <summary>Ends the capture where it stands.</summary>
    public CancellationToken Stop { get; init; }

    /// <summary>Told each line of the board's log as it comes; null: nobody.</summary>
    public Action<BoardLogLine>? OnLog { get; init; }
}
