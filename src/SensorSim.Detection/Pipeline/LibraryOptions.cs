// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Pipeline;

/// <summary>What the library must be told of its sensor and its wearer; the defaults do without.</summary>
public struct LibraryOptions
{
    /// <summary>From ratio of ratios to saturation, for the wavelengths of the sensor.</summary>
    public OxygenTable Oxygen;

    /// <summary>The textbook line for oxygen, no calibration of pressure.</summary>
    public static LibraryOptions Default => new() { Oxygen = OxygenTable.Textbook };
}
