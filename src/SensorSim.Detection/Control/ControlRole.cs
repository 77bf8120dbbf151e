// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Control;

/// <summary>Which channel a request is for, whatever its number in a stream.</summary>
public enum ControlRole : byte
{
    /// <summary>Red light.</summary>
    Red = 0,

    /// <summary>Infrared light.</summary>
    Infrared = 1,

    /// <summary>Green light.</summary>
    Green = 2,

    /// <summary>The slot without a lit LED.</summary>
    Dark = 3,

    /// <summary>Every optical channel that there is, the dark one too.</summary>
    AllLight = 4,
}
