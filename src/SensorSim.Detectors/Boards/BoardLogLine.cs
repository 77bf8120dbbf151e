// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames.Payloads;

namespace SensorSim.Detectors.Boards;

/// <summary>A line of a board's log.</summary>
/// <param name="Level">How much it matters.</param>
/// <param name="Text">The text, on one line and without control characters.</param>
public readonly record struct BoardLogLine(LogLevel Level, string Text);
