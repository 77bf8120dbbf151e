// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Damage;

/// <summary>What was done to the frames of one direction.</summary>
/// <remarks>
/// From these follows what a receiver must count once the line is quiet and its last frame came whole: <c>damaged</c> = <see cref="BrokenPieces"/>,
/// <c>repeated</c> = <see cref="Repeats"/>; accepted and <c>missing</c> together are the frames that were sent.
/// </remarks>
public record struct DamageCounts
{
    /// <summary>Frames that went in.</summary>
    public long Frames { get; set; }

    /// <summary>Frames that did not come out.</summary>
    public long Dropped { get; set; }

    /// <summary>Frames that came out damaged.</summary>
    public long Corrupted { get; set; }

    /// <summary>What lies between two 00 of what came out and is not a whole frame as it went in. A damaged frame may fall into several, or take the next one with it.</summary>
    public long BrokenPieces { get; set; }

    /// <summary>Frames that came out twice.</summary>
    public long Duplicated { get; set; }

    /// <summary>Whole frames that came out after they had come out before, or after a later one. A copy whose original was spoilt by the damage before it is none.</summary>
    public long Repeats { get; set; }

    /// <summary>Frames that came out later.</summary>
    public long Delayed { get; set; }

    /// <summary>Frames that the next one overtook.</summary>
    public long Reordered { get; set; }

    /// <summary>Times the line fell silent.</summary>
    public long Stalled { get; set; }
}
