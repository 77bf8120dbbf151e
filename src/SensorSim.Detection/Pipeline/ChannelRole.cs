// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pipeline;

/// <summary>What a channel carries; the number is its place in <see cref="LibrarySetup"/> and <see cref="LibraryInput"/>.</summary>
public enum ChannelRole : byte
{
    /// <summary>ECG.</summary>
    Ecg,

    /// <summary>Red light received.</summary>
    Red,

    /// <summary>Infrared light received.</summary>
    Infrared,

    /// <summary>Green light received.</summary>
    Green,

    /// <summary>Light received while no LED is on.</summary>
    Dark,

    /// <summary>Acceleration, first axis.</summary>
    AccelX,

    /// <summary>Acceleration, second axis.</summary>
    AccelY,

    /// <summary>Acceleration, third axis.</summary>
    AccelZ,

    /// <summary>No channel.</summary>
    None = 255,
}
