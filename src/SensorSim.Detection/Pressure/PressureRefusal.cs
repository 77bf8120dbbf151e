// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pressure;

/// <summary>Why there is no pressure, or no calibration.</summary>
public enum PressureRefusal : byte
{
    /// <summary>There is one.</summary>
    None = 0,

    /// <summary>There is no valid calibration.</summary>
    NotCalibrated = 1,

    /// <summary>Calibration: a setting lies outside of its range.</summary>
    SettingOutOfRange = 2,

    /// <summary>Calibration: a cuff value outside of 50 to 250 systolic, 30 to 160 diastolic, or closer together than 10 mmHg.</summary>
    CuffImplausible = 3,

    /// <summary>The arrival time is outside of 80 to 450 ms.</summary>
    ArrivalImplausible = 4,

    /// <summary>Calibration: the two points differ by less than 10 ms or 5 mmHg systolic, which is as much as chance does.</summary>
    PointsTooClose = 5,

    /// <summary>Calibration: systolic pressure does not fall with arrival time, or by less than half or more than twice what is published.</summary>
    SlopeImplausible = 6,

    /// <summary>The calibration is older than allowed.</summary>
    CalibrationTooOld = 7,

    /// <summary>The time given lies before the calibration.</summary>
    TimeBeforeCalibration = 8,

    /// <summary>There is no arrival time to work from, or its quality is 0.</summary>
    ArrivalMissing = 9,

    /// <summary>The calibration has a heart-rate term, and there is no heart rate of the same time.</summary>
    HeartRateMissing = 10,

    /// <summary>The value lies further from the calibrated pressures than allowed.</summary>
    OutsideCalibratedRange = 11,

    /// <summary>The values could not be those of a living person: see <see cref="CuffImplausible"/>.</summary>
    ValueImplausible = 12,

    /// <summary>The error to be expected is 10 mmHg or more.</summary>
    TooUncertain = 13,
}
