// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pressure;

/// <summary>The error that is to be expected of an estimate, and the trust that follows. Terms add as squares.</summary>
/// <remarks>
/// Base and age: Wong 2009, 14 subjects, errors 0.0 ± 5.3 (systolic) and 0.0 ± 2.9 (diastolic) on the same day, 1.4 ± 10.2 and 2.1 ± 7.3 mmHg
/// after six months (182 days), taken to grow evenly in mean square. Spread: a spot is the median of 20 beats or more that do not
/// vary independently; a quarter of their spread stands for its standard error, times the slope (a choice). Distance: a part of the way from
/// the nearest calibrated pressure; see <see cref="PressureEstimator"/>.
/// Input: 1/1000 mmHg, days, µs.
/// Product: (1/100 mmHg)², 64 bits.
/// Accumulator: 64 bits.
/// Worst case: clips at 2^32 − 1, 655 mmHg.
/// Output: 1/100 mmHg, floor.
/// </remarks>
internal static class PressureError
{
    private const int SystolicBase = 530 * 530;
    private const int DiastolicBase = 290 * 290;

    // ((10.2² + 1.4²) − 5.3²) / 182 and ((7.3² + 2.1²) − 2.9²) / 182 mmHg² a day.
    private const int SystolicPerDay = 4_281;
    private const int DiastolicPerDay = 2_708;

    // From 10 mmHg on nothing is given; 5 mmHg give full trust.
    private const int Most = 1_000;

    /// <summary>Expected error [1/100 mmHg].</summary>
    /// <param name="isSystolic">Which pressure.</param>
    /// <param name="ageDays">Age of the calibration [days].</param>
    /// <param name="slopeMilli">Magnitude of the slope [1/1000 mmHg per ms].</param>
    /// <param name="spreadUs">Spread of the arrival times, root of the sum of both squares [µs].</param>
    /// <param name="offMilli">Part of the distance that counts as error [1/1000 mmHg].</param>
    public static int Centi(bool isSystolic, int ageDays, int slopeMilli, int spreadUs, int offMilli)
    {
        ulong square = isSystolic ? SystolicBase + ((ulong)ageDays * SystolicPerDay) : DiastolicBase + ((ulong)ageDays * DiastolicPerDay);

        // 1/1000 mmHg per ms × µs is 10^-6 mmHg: a quarter of it in 1/100 mmHg is a 40,000th.
        ulong ofSpread = (ulong)LongDivision.Rounded((ulong)slopeMilli * (ulong)spreadUs, 40_000);
        ulong ofDistance = (ulong)LongDivision.Rounded((ulong)offMilli, 10);
        square += (ofSpread * ofSpread) + (ofDistance * ofDistance);
        return (int)IntegerRoot.Floor(square > uint.MaxValue ? uint.MaxValue : (uint)square);
    }

    /// <summary>Trust, 255 for 5 mmHg and less to 0 for 10 mmHg and more.</summary>
    /// <param name="centi">Expected error [1/100 mmHg].</param>
    public static byte Quality(int centi)
    {
        int left = Most - centi;
        return left <= 0 ? (byte)0 : left >= 500 ? (byte)255 : (byte)((left * 51) / 100);
    }
}
