// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Control;

/// <summary>What can be asked for, with the unit of its value.</summary>
public enum ControlSetting : byte
{
    /// <summary>LED current [1/1000 mA].</summary>
    LedCurrent = 0,

    /// <summary>LED pulse width [1/1000 µs].</summary>
    PulseWidth = 1,

    /// <summary>Gain of the receiver [1/1000].</summary>
    Gain = 2,

    /// <summary>Decimation of the sampling rate [1/1000], whole; 0 switches off.</summary>
    Decimation = 3,
}
