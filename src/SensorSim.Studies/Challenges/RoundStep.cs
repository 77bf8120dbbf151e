// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Challenges;

/// <summary>A step of 1, 2 or 5 times a power of ten, and its multiples as the doubles that their decimal text reads as.</summary>
internal readonly record struct RoundStep
{
    // One of the two is 1 or both are whole, so a multiple is one rounding away from its decimal.
    private readonly double _times;
    private readonly double _over;

    private RoundStep(double times, double over)
    {
        _times = times;
        _over = over;
    }

    /// <summary>Size of the step.</summary>
    public double Size => _times / _over;

    /// <summary>The largest step that is not above a size.</summary>
    /// <param name="most">The size, above 0.</param>
    public static RoundStep AtMost(double most)
    {
        (double times, double over) = PowerOfTen(most);
        foreach (double factor in (ReadOnlySpan<double>)[5, 2])
        {
            // A hundredth of 0.5 is 0.005 but for the last bit.
            if (factor * times / over <= most * (1 + 1e-12))
            {
                return new RoundStep(factor * times, over);
            }
        }

        return new RoundStep(times, over);
    }

    /// <summary>The step of the second significant digit of a value.</summary>
    /// <param name="value">The value, above 0.</param>
    public static RoundStep OfTwoDigits(double value)
    {
        (double times, double over) = PowerOfTen(value);
        return times > 1 ? new RoundStep(times / 10, over) : new RoundStep(times, over * 10);
    }

    /// <summary>The multiple nearest to a value.</summary>
    public double Nearest(double value) => Multiple(Math.Round(value / Size));

    /// <summary>The largest multiple below a value.</summary>
    public double Below(double value) => Multiple(Math.Ceiling((value / Size) - 1e-6) - 1);

    /// <summary>The smallest multiple above a value.</summary>
    public double Above(double value) => Multiple(Math.Floor((value / Size) + 1e-6) + 1);

    private double Multiple(double count) => count * _times / _over;

    // The largest power of ten not above a value, as a fraction of whole numbers.
    private static (double Times, double Over) PowerOfTen(double value)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(value);
        double times = 1;
        double over = 1;
        while (times * 10 <= value * (1 + 1e-12))
        {
            times *= 10;
        }

        while (times / over > value * (1 + 1e-12))
        {
            over *= 10;
        }

        return (times, over);
    }
}
