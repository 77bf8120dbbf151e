// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>Why a board could not use a frame, or what is wrong with it.</summary>
public enum TroubleCode : ushort
{
    /// <summary>Nothing is wrong; never sent.</summary>
    None = 0,

    /// <summary>The type is not known.</summary>
    UnknownType = 1,

    /// <summary>Length or content of the payload are not what the type says.</summary>
    WrongContent = 2,

    /// <summary>The version of the protocol is another one.</summary>
    WrongVersion = 3,

    /// <summary>Samples before a start.</summary>
    NotStarted = 4,

    /// <summary>The stream has no such channel.</summary>
    NoSuchChannel = 5,

    /// <summary>The detector does not take what it was told.</summary>
    SetupRefused = 6,

    /// <summary>The detector cannot work on such a stream.</summary>
    FormatRefused = 7,

    /// <summary>Samples begin before what has been taken.</summary>
    SamplesTooEarly = 8,

    /// <summary>Answers found no room and are lost.</summary>
    AnswersLost = 9,

    /// <summary>The board itself has a fault.</summary>
    BoardFault = 10,
}
