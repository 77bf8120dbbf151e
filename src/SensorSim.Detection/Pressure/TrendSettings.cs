// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pressure;

/// <summary>What the trend is looked for with. Constant after set-up, no part of the state.</summary>
/// <remarks>
/// Threshold by Siegmund 1985 (formula from memory, as in Montgomery): with b = h + 1.166 and y = 2 k b, a one-sided sum of standard normal
/// values exceeds h after (e^y − y − 1) / (2 k²) of them on average; both sides together after half of that, A. So y = ln(1 + y + 4 k² A),
/// which a few rounds solve.
/// Input: days up to 36,500; k in Q24.8, 64 to 512.
/// Product: k² A in Q.16, 35 bits.
/// Accumulator: 64 bits; argument of the logarithm in UQ20.12.
/// Worst case: 1 + 18 + 16 × 36,500 below 2^20.
/// Output: h in Q24.8, within 1 % of the formula.
/// </remarks>
public record struct TrendSettings
{
    /// <summary>Days of readings between false alarms by default. A choice: one a year.</summary>
    public const int UsualFalseAlarmDays = 365;

    private const int Rounds = 12;

    /// <summary>Allowance k [1/256 standard deviation]: half of the change that is looked for.</summary>
    public short Allowance256 { get; set; }

    /// <summary>Threshold h [1/256 standard deviation].</summary>
    public short Threshold256 { get; set; }

    /// <summary>Days with readings before a change may be told, 5 to 250.</summary>
    public byte LearningDays { get; set; }

    /// <summary>Standard deviation from day to day that is assumed at first [1/16 mmHg]; weighs as many days as it is learned from.</summary>
    public short FirstSd16 { get; set; }

    /// <summary>Days that the assumed deviation weighs.</summary>
    public byte FirstSdDays { get; set; }

    /// <summary>Smallest quality of a spot reading that counts.</summary>
    public byte LeastQuality { get; set; }

    /// <summary>Pressure for each bpm away from the usual rate that is taken off [1/1000 mmHg], −5,000 to 5,000.</summary>
    public short PerBpmMilli { get; set; }

    /// <summary>Spots at a rate this far above the usual one are not at rest and do not count [bpm].</summary>
    public byte RestMarginBpm { get; set; }

    /// <summary>The usual settings.</summary>
    /// <param name="falseAlarmDays">Days with readings between two false alarms, on average, 20 to 36,500; clipped.</param>
    /// <param name="allowance256">Allowance k [1/256 standard deviation], 64 to 512; clipped. 128 looks for a change of one deviation.</param>
    public static TrendSettings Create(int falseAlarmDays = UsualFalseAlarmDays, int allowance256 = 128)
    {
        int k = allowance256 < 64 ? 64 : allowance256 > 512 ? 512 : allowance256;
        int days = falseAlarmDays < 20 ? 20 : falseAlarmDays > 36_500 ? 36_500 : falseAlarmDays;
        return new TrendSettings
        {
            Allowance256 = (short)k,
            Threshold256 = Threshold(days, k),
            LearningDays = 14,
            FirstSd16 = 7 * 16, // single home readings vary by 8 to 9 mmHg from day to day (Kikuya 2008, from memory)
            FirstSdDays = 14,
            LeastQuality = 1,
            RestMarginBpm = 20,
        };
    }

    private static short Threshold(int days, int k256)
    {
        // 1 + 4 k² A in Q.12.
        long fixedPart = 4096 + (4L * k256 * k256 * days / 16);
        const int LnOf4096 = 139_548_960; // 12 ln 2 in Q8.24
        int y24 = 0;
        for (int i = 0; i < Rounds; i++)
        {
            y24 = Log2.NaturalQ24((uint)(fixedPart + Shift.Floor(y24, 12))) - LnOf4096;
        }

        // h = y / (2 k) − 1.166, all in Q.8: y24 / 2^16 is y256, times 256 over 2 k256.
        return (short)(LongDivision.Rounded((ulong)y24, (uint)(2 * k256) << 8) - 298);
    }
}
