// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pressure;

/// <summary>A cuff measurement and what the sensor read at the same time, in the same posture.</summary>
/// <param name="SystolicMilli">Systolic pressure by the cuff [1/1000 mmHg].</param>
/// <param name="DiastolicMilli">Diastolic pressure by the cuff [1/1000 mmHg].</param>
/// <param name="ArrivalUs">Spot arrival time [µs].</param>
/// <param name="SpreadUs">Standard deviation of the single beats' arrival times [µs]; 0 when not known.</param>
/// <param name="RateMilliBpm">Heart rate [1/1000 bpm]; 0 when not known.</param>
/// <param name="TimeS">When [s], on the clock that estimates are asked with.</param>
public readonly record struct CuffPoint(
    int SystolicMilli, int DiastolicMilli, int ArrivalUs, int SpreadUs, int RateMilliBpm, long TimeS);
