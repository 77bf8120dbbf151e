// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.Boards;

/// <summary>What went over the line so far, as both ends counted it; over all sessions of a run.</summary>
/// <remarks>The board's own counts are those of its latest report: they lag behind until it has stopped.</remarks>
public readonly record struct BoardCounts
{
    /// <summary>Frames sent to the board.</summary>
    public long FramesSent { get; init; }

    /// <summary>Bytes sent to the board.</summary>
    public long BytesSent { get; init; }

    /// <summary>Bytes that came from the board.</summary>
    public long BytesReceived { get; init; }

    /// <summary>Sound frames that came from the board.</summary>
    public long FramesReceived { get; init; }

    /// <summary>Frames of the board that came damaged.</summary>
    public long FramesDamaged { get; init; }

    /// <summary>Frames of the board that were passed over.</summary>
    public long FramesMissing { get; init; }

    /// <summary>Frames of the board that came again, or too late.</summary>
    public long FramesRepeated { get; init; }

    /// <summary>Frames that the board accepted.</summary>
    public long BoardAccepted { get; init; }

    /// <summary>Frames that reached the board damaged.</summary>
    public long BoardDamaged { get; init; }

    /// <summary>Frames that the board missed.</summary>
    public long BoardMissing { get; init; }

    /// <summary>Frames that reached the board again, or too late.</summary>
    public long BoardRepeated { get; init; }

    /// <summary>Frames that the board could not use, as it says.</summary>
    public long Troubles { get; init; }

    /// <summary>Marks that came.</summary>
    public long AnswersReceived { get; init; }

    /// <summary>Marks that the board says it has sent.</summary>
    public long AnswersAnnounced { get; init; }

    /// <summary>Marks that the board could not send, as it says, and those that were lost on the line.</summary>
    public long AnswersLost { get; init; }

    /// <summary>Times that the line was lost and came back.</summary>
    public long Reconnects { get; init; }

    /// <summary>Sessions begun anew because the board no longer knew the one before.</summary>
    public long SessionsBegunAnew { get; init; }
}
