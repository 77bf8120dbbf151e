// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pressure;

/// <summary>The forms of the curve brought to one: P = P0 + gain × h(T / T0), with h = 0 and slope 1 / T0 at T0.</summary>
/// <remarks>
/// h: linear T/T0 − 1; logarithmic ln(T/T0); inverse 1 − T0/T; inverse square (1 − (T0/T)²) / 2. So the gain is T0 dP/dT in all of them,
/// and −2/ζ where the elasticity gives the slope.
/// Input: µs, 80,000 to 450,000, whose ratio is below 6.
/// Product: µs × 2^24, 43 bits; Q4.24 squared, 54 bits.
/// Accumulator: 64 bits.
/// Worst case: inverse square of 1/5.6: −15.1 in Q5.24, below 2^28.
/// Output: Q8.24, rounded to nearest; within two steps (1.2 × 10^-7) of the true value, five for the inverse square far below T0.
/// </remarks>
public static class ArrivalShape
{
    /// <summary>One in the format of the result.</summary>
    public const int One = 1 << Log2.FractionBits;

    /// <summary>Value of h.</summary>
    /// <param name="model">Form; pulse pressure has the logarithm.</param>
    /// <param name="timeUs">Arrival time T [µs].</param>
    /// <param name="referenceUs">Arrival time T0 of the calibration [µs].</param>
    public static int Q24(PressureModel model, int timeUs, int referenceUs)
    {
        switch (model)
        {
            case PressureModel.Linear:
                return RatioQ24(timeUs, referenceUs) - One;
            case PressureModel.Inverse:
                return One - RatioQ24(referenceUs, timeUs);
            case PressureModel.InverseSquare:
                return Shift.Round(One - SquareQ24(referenceUs, timeUs), 1);
            default:
                return Log2.NaturalQ24((uint)timeUs) - Log2.NaturalQ24((uint)referenceUs);
        }
    }

    /// <summary>Square of a ratio of arrival times, Q8.24.</summary>
    /// <param name="overUs">Upper one [µs].</param>
    /// <param name="underUs">Lower one [µs].</param>
    public static int SquareQ24(int overUs, int underUs)
    {
        long ratio = RatioQ24(overUs, underUs);
        return (int)(((ratio * ratio) + (One >> 1)) >> Log2.FractionBits);
    }

    /// <summary>A number times one in Q8.24, rounded to nearest.</summary>
    /// <param name="value">The number.</param>
    /// <param name="q24">The factor.</param>
    public static int Times(int value, int q24)
    {
        long product = ((long)value * q24) + (One >> 1);
        product >>= Log2.FractionBits;
        return product > int.MaxValue ? int.MaxValue : product < -int.MaxValue ? -int.MaxValue : (int)product;
    }

    private static int RatioQ24(int overUs, int underUs) =>
        LongDivision.Rounded((ulong)(uint)overUs << Log2.FractionBits, (uint)underUs);
}
