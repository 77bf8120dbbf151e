// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Movement;

/// <summary>Sine from a table of a quarter circle.</summary>
public static class SineTable
{
    // round(32767 sin(π i / 128)), i = 0 to 64.
    private static ReadOnlySpan<short> Quarter =>
    [
        0, 804, 1608, 2410, 3212, 4011, 4808, 5602, 6393, 7179, 7962, 8739, 9512,
        10278, 11039, 11793, 12539, 13279, 14010, 14732, 15446, 16151, 16846, 17530, 18204, 18868,
        19519, 20159, 20787, 21403, 22005, 22594, 23170, 23731, 24279, 24811, 25329, 25832, 26319,
        26790, 27245, 27683, 28105, 28510, 28898, 29268, 29621, 29956, 30273, 30571, 30852, 31113,
        31356, 31580, 31785, 31971, 32137, 32285, 32412, 32521, 32609, 32678, 32728, 32757, 32767,
    ];

    /// <summary>Sine, Q1.15.</summary>
    /// <param name="angle">1/256 of a circle, modulo 256.</param>
    /// <remarks>
    /// Input: 8 bits.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: ±32767.
    /// Output: Q1.15, rounded to nearest.
    /// </remarks>
    public static int Sine(int angle)
    {
        int place = angle & 127;
        int value = Quarter[place <= 64 ? place : 128 - place];
        return (angle & 128) == 0 ? value : -value;
    }

    /// <summary>Cosine, Q1.15.</summary>
    /// <param name="angle">1/256 of a circle, modulo 256.</param>
    public static int Cosine(int angle) => Sine(angle + 64);

    /// <summary>Sine of an angle between the places of the table, by straight lines.</summary>
    /// <param name="angle16">1/65536 of a circle.</param>
    /// <remarks>
    /// Input: 16 bits.
    /// Product: difference of neighbours 10 bits × 8 bits.
    /// Accumulator: 32 bits.
    /// Worst case: ±32767; off by at most 3.
    /// Output: Q1.15.
    /// </remarks>
    public static int Fine(int angle16)
    {
        int place = (angle16 >> 8) & 255;
        int here = Sine(place);
        return here + (((Sine(place + 1) - here) * (angle16 & 255)) >> 8);
    }
}
