// SPDX-License-Identifier: MIT
namespace SensorSim.Detection;

/// <summary>Why a gate is shut. The number stands as the value of the mark.</summary>
public enum GateReason : byte
{
    /// <summary>It is not shut.</summary>
    None = 0,

    /// <summary>Not enough has been seen yet.</summary>
    Waiting = 1,

    /// <summary>An electrode is off, or the optical sensor does not touch the skin.</summary>
    NoContact = 2,

    /// <summary>Amplifier or converter are at the end of their range.</summary>
    Saturated = 3,

    /// <summary>Samples do not come.</summary>
    NoSamples = 4,

    /// <summary>Movement hides the signal.</summary>
    Movement = 5,

    /// <summary>Room light hides the signal.</summary>
    Ambient = 6,

    /// <summary>Beats or pulses come and differ too irregularly to be told from noise.</summary>
    Irregular = 7,

    /// <summary>The signal is too weak for its noise.</summary>
    TooWeak = 8,
}
