// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pressure;

/// <summary>What pressures, times and slopes are believed. Integers, once per reading.</summary>
internal static class PressureLimits
{
    /// <summary>Shortest arrival time that is believed [µs], as in the pairing of beats and feet.</summary>
    public const int ShortestUs = 80_000;

    /// <summary>Longest arrival time that is believed [µs].</summary>
    public const int LongestUs = 450_000;

    // Two spot values of one person differ by 9 ms (SD, finger, day to day: Jago and Murray 1988).
    private const int LeastApartUs = 10_000;
    private const int LeastApartMilli = 5_000;

    // Finger, systolic: -0.3 to -1.2 mmHg/ms (from memory); half and twice that.
    private const int LeastSlopeMilli = 150;
    private const int MostSlopeMilli = 2_400;

    /// <summary>Whether two pressures can be those of a living person: 50 to 250, 30 to 160, 10 mmHg apart (range for gating in the
    /// study of arterial-line arrival times during surgery that the reference of this project names).</summary>
    /// <param name="systolicMilli">Systolic [1/1000 mmHg].</param>
    /// <param name="diastolicMilli">Diastolic [1/1000 mmHg].</param>
    public static bool ArePlausible(int systolicMilli, int diastolicMilli) =>
        systolicMilli >= 50_000 && systolicMilli <= 250_000 && diastolicMilli >= 30_000 && diastolicMilli <= 160_000
        && systolicMilli - diastolicMilli > 10_000;

    /// <summary>Whether an arrival time is believed.</summary>
    /// <param name="us">The time [µs].</param>
    public static bool IsArrival(int us) => us >= ShortestUs && us <= LongestUs;

    /// <summary>What is wrong with the numbers of a calibration.</summary>
    /// <param name="c">The calibration.</param>
    public static PressureRefusal Check(in PressureCalibration c)
    {
        bool isInRange = c.Points is 1 or 2 && c.Model <= PressureModel.PulsePressure && c.SlopeMilliMmHgPerMs <= 0
            && c.ZetaMicroPerMmHg is >= 5_000 and <= 50_000 && c.DiastolicSharePermille is >= 0 and <= 1_000
            && c.SystolicPerBpmMilli is >= -5_000 and <= 5_000 && c.DiastolicPerBpmMilli is >= -5_000 and <= 5_000
            && c.LongestAgeDays is >= 1 and <= 3_650 && c.ReachMilliMmHg is >= 0 and <= 100_000;
        if (!isInRange)
        {
            return PressureRefusal.SettingOutOfRange;
        }

        PressureRefusal first = Check(c.First, c);
        PressureRefusal second = c.Points == 2 ? Check(c.Second, c) : PressureRefusal.None;
        if (first != PressureRefusal.None || second != PressureRefusal.None)
        {
            return first != PressureRefusal.None ? first : second;
        }

        return c.Points == 2 && (Sat.Abs32(c.First.ArrivalUs - c.Second.ArrivalUs) < LeastApartUs
            || Sat.Abs32(c.First.SystolicMilli - c.Second.SystolicMilli) < LeastApartMilli)
            ? PressureRefusal.PointsTooClose : PressureRefusal.None;
    }

    /// <summary>Whether a gain T0 dP/dT gives a slope that is believed.</summary>
    /// <param name="gainMilli">Gain [1/1000 mmHg].</param>
    /// <param name="arrivalUs">T0 [µs].</param>
    public static bool IsSlope(int gainMilli, int arrivalUs) =>
        gainMilli < 0 && -1000L * gainMilli >= (long)LeastSlopeMilli * arrivalUs && -1000L * gainMilli <= (long)MostSlopeMilli * arrivalUs;

    private static PressureRefusal Check(in CuffPoint point, in PressureCalibration c)
    {
        bool needsRate = c.SystolicPerBpmMilli != 0 || c.DiastolicPerBpmMilli != 0;
        return !ArePlausible(point.SystolicMilli, point.DiastolicMilli) ? PressureRefusal.CuffImplausible
            : !IsArrival(point.ArrivalUs) ? PressureRefusal.ArrivalImplausible
            : point.SpreadUs is < 0 or > ushort.MaxValue || point.RateMilliBpm is < 0 or > 400_000 ? PressureRefusal.SettingOutOfRange
            : needsRate && point.RateMilliBpm == 0 ? PressureRefusal.HeartRateMissing
            : PressureRefusal.None;
    }
}
