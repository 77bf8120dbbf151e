// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pressure;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors;

/// <summary>Asks the library whether it would take a calibration of the pressure, before there is a stream.</summary>
public static class CalibrationCheck
{
    /// <summary>Why the library refuses a calibration; null when it takes it.</summary>
    /// <param name="calibration">The calibration.</param>
    public static string? Refusal(DetectorCalibration calibration)
    {
        ArgumentNullException.ThrowIfNull(calibration);
        PressureEstimator estimator = default;
        return calibration.Pressure is null || estimator.Calibrate(OptionsOf.Calibration(calibration).Pressure)
            ? null : Sentence(estimator.Refusal);
    }

    /// <summary>A refusal in words.</summary>
    /// <param name="refusal">Not none.</param>
    internal static string Sentence(PressureRefusal refusal) => refusal switch
    {
        PressureRefusal.CalibrationTooOld => "the calibration is older than its valid days",
        PressureRefusal.TimeBeforeCalibration => "the calibration lies in the future",
        PressureRefusal.OutsideCalibratedRange => "the pressure lies further from the measured ones than the reach allows",
        PressureRefusal.ValueImplausible => "the pressure could not be that of a living person",
        PressureRefusal.TooUncertain => "the error to be expected is 10 mmHg or more",
        PressureRefusal.CuffImplausible =>
            "the cuff pressures are not believed; 50 to 250 mmHg systolic, 30 to 160 diastolic, more than 10 apart",
        PressureRefusal.ArrivalImplausible => "the arrival time is not believed; 80 to 450 ms",
        PressureRefusal.PointsTooClose => "the two measurements are too close; 10 ms and 5 mmHg systolic at least, as chance does less",
        PressureRefusal.SlopeImplausible =>
            "the curve would be too flat, too steep or rising; systolic pressure must fall by 0.15 to 2.4 mmHg for each ms of arrival time, diastolic not change more than systolic",
        PressureRefusal.HeartRateMissing => "the pressure changes with the rate, so each measurement needs its heart rate",
        _ => "a setting of the pressure lies outside of its range",
    };
}
