// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pressure;
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Pipeline;

/// <summary>What the library must be told of its sensor and its wearer; the defaults do without. Read at the start, no part of the state.</summary>
public struct LibraryOptions
{
    /// <summary>From ratio of ratios to saturation, for the wavelengths of the sensor.</summary>
    public OxygenTable Oxygen;

    /// <summary>Calibration of the pressure by a cuff; with no point in it (0) there are no pressures.</summary>
    public PressureCalibration Pressure;

    /// <summary>What the trend of the systolic pressure is looked for with.</summary>
    public TrendSettings Trend;

    /// <summary>Constants that may be set.</summary>
    public Tuning Tuning;

    /// <summary>
    /// Local time at tick 0 [s], counted like the calibration's times and from a midnight, at least one day: 86,400 is the midnight before.
    /// </summary>
    public long StartS;

    /// <summary>The textbook line for oxygen, no calibration of pressure, the usual trend and constants, a start at midnight.</summary>
    public static LibraryOptions Default => new() { Oxygen = OxygenTable.Textbook, Trend = TrendSettings.Create(), Tuning = Tuning.Usual, StartS = 86_400 };
}
