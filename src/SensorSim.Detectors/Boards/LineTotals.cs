// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;

namespace SensorSim.Detectors.Boards;

/// <summary>What a line has counted, to be added up over several lines and taken off at a start.</summary>
internal readonly record struct LineTotals(long FramesSent, long BytesSent, long BytesReceived, long Good, long Damaged, long Missing, long Repeated)
{
    public static LineTotals Of(BoardLine line)
    {
        (FrameCounts frames, long bytes, _) = line.Received;
        return new LineTotals(line.FramesSent, line.BytesSent, bytes, frames.Good, frames.Damaged, frames.Missing, frames.Repeated);
    }

    public LineTotals Plus(in LineTotals other) => new(
        FramesSent + other.FramesSent,
        BytesSent + other.BytesSent,
        BytesReceived + other.BytesReceived,
        Good + other.Good,
        Damaged + other.Damaged,
        Missing + other.Missing,
        Repeated + other.Repeated);

    public LineTotals Negative() => new(-FramesSent, -BytesSent, -BytesReceived, -Good, -Damaged, -Missing, -Repeated);
}
