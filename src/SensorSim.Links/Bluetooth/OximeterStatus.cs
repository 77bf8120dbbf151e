// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Bluetooth;

/// <summary>State of a measurement of the Bluetooth Pulse Oximeter Service; bits 0 to 4 are reserved.</summary>
[Flags]
public enum OximeterStatus
{
    /// <summary>Nothing is said.</summary>
    None = 0,

    /// <summary>The measurement goes on.</summary>
    Ongoing = 1 << 5,

    /// <summary>Early estimate.</summary>
    EarlyEstimate = 1 << 6,

    /// <summary>Validated.</summary>
    Validated = 1 << 7,

    /// <summary>Fully qualified.</summary>
    FullyQualified = 1 << 8,

    /// <summary>From the device's storage.</summary>
    FromStorage = 1 << 9,

    /// <summary>For demonstration.</summary>
    Demonstration = 1 << 10,

    /// <summary>For testing.</summary>
    Testing = 1 << 11,

    /// <summary>Calibration goes on.</summary>
    Calibrating = 1 << 12,

    /// <summary>Not available.</summary>
    Unavailable = 1 << 13,

    /// <summary>Questionable.</summary>
    Questionable = 1 << 14,

    /// <summary>Invalid.</summary>
    Invalid = 1 << 15,
}

/// <summary>State of device and sensor of the Bluetooth Pulse Oximeter Service; bits 16 to 23 are reserved.</summary>
[Flags]
public enum OximeterDeviceStatus
{
    /// <summary>Nothing is said.</summary>
    None = 0,

    /// <summary>The display goes on showing the last value.</summary>
    ExtendedDisplayUpdate = 1,

    /// <summary>Equipment fault.</summary>
    EquipmentFault = 1 << 1,

    /// <summary>The signal is processed irregularly.</summary>
    ProcessingIrregularity = 1 << 2,

    /// <summary>Too little signal.</summary>
    InadequateSignal = 1 << 3,

    /// <summary>Poor signal.</summary>
    PoorSignal = 1 << 4,

    /// <summary>Low perfusion.</summary>
    LowPerfusion = 1 << 5,

    /// <summary>Erratic signal.</summary>
    ErraticSignal = 1 << 6,

    /// <summary>The signal does not pulsate.</summary>
    NonPulsatile = 1 << 7,

    /// <summary>Questionable pulse.</summary>
    QuestionablePulse = 1 << 8,

    /// <summary>The signal is being analysed.</summary>
    Analysing = 1 << 9,

    /// <summary>Interference.</summary>
    Interference = 1 << 10,

    /// <summary>The sensor is not on the user.</summary>
    NotOnUser = 1 << 11,

    /// <summary>Unknown sensor.</summary>
    UnknownSensor = 1 << 12,

    /// <summary>The sensor has been displaced.</summary>
    Displaced = 1 << 13,

    /// <summary>The sensor does not work.</summary>
    Malfunction = 1 << 14,

    /// <summary>The sensor is not connected.</summary>
    Disconnected = 1 << 15,
}
