// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>One thing that a board has measured about itself.</summary>
/// <param name="Item">Number of the figure, one of <see cref="BoardFigures"/>.</param>
/// <param name="Index">Which one of several (stage, channel), from 0; else 0.</param>
/// <param name="Value">The value in the unit of the figure.</param>
public readonly record struct BoardFigure(ushort Item, ushort Index, long Value);

/// <summary>Numbers of the figures of a board.</summary>
public static class BoardFigures
{
    /// <summary>Stack that there is [bytes].</summary>
    public const ushort StackBytes = 1;

    /// <summary>Stack that was used at most [bytes].</summary>
    public const ushort StackUsedBytes = 2;

    /// <summary>State of the detector [bytes].</summary>
    public const ushort StateBytes = 3;

    /// <summary>Answers that found no room.</summary>
    public const ushort AnswersLost = 4;

    /// <summary>Longest time that a <c>samples</c> frame took [µs].</summary>
    public const ushort LongestFrameUs = 5;

    /// <summary>Ticks of the board's timer in a stage, the finest counter that the board has; the index is the stage: 0 the detector, 1 the link.</summary>
    public const ushort StageTimerTicks = 6;

    /// <summary>Samples taken; the index is the channel.</summary>
    public const ushort SamplesTaken = 7;

    /// <summary>Received bytes that found no room before anybody read them [bytes].</summary>
    public const ushort BytesLost = 8;
}
