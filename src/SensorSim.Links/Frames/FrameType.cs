// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>What a frame carries; the numbers are those of <c>docs/link-protocol.md</c>.</summary>
public enum FrameType : byte
{
    /// <summary>Host: a session begins.</summary>
    Hello = 0x01,

    /// <summary>Channels and clock of the stream.</summary>
    Format = 0x02,

    /// <summary>Host: what the detector is told.</summary>
    Setup = 0x03,

    /// <summary>Host: samples follow.</summary>
    Start = 0x04,

    /// <summary>Host: no more samples follow.</summary>
    Stop = 0x05,

    /// <summary>Host: wants <see cref="Progress"/>.</summary>
    Ask = 0x06,

    /// <summary>Host: wants the board's own samples.</summary>
    Capture = 0x07,

    /// <summary>Samples of all channels of a stretch of time.</summary>
    Samples = 0x10,

    /// <summary>Host: a setting of the sensor has changed.</summary>
    Setting = 0x12,

    /// <summary>Board: who it is and what it can take.</summary>
    About = 0x81,

    /// <summary>Board: a frame that wants it was accepted.</summary>
    Accepted = 0x83,

    /// <summary>Board: how far it is, and its counts.</summary>
    Progress = 0x84,

    /// <summary>Board: answers of the detector.</summary>
    Marks = 0x90,

    /// <summary>Board: wishes to change a setting of the sensor.</summary>
    Request = 0x91,

    /// <summary>Board: a line of its log.</summary>
    Log = 0x92,

    /// <summary>Board: a frame could not be used.</summary>
    Trouble = 0x93,

    /// <summary>Board: the last mark has been given.</summary>
    Stopped = 0x95,

    /// <summary>Board: what it measured about itself.</summary>
    Figures = 0x96,
}
