// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Oxygen;

/// <summary>Reads plain decimal numbers such as 0.45: digits with at most one point, no sign, no exponent, no spaces.</summary>
internal static class DecimalText
{
    private const int MostDigits = 15;

    /// <summary>Reads a number.</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">Receives the number, correctly rounded: digits and power of ten are both exact, so one division rounds once.</param>
    /// <returns>False when it is no such number, or has more than 15 digits.</returns>
    public static bool TryRead(ReadOnlySpan<char> text, out double value)
    {
        long digits = 0;
        double divisor = 1;
        int count = 0;
        bool hasPoint = false;
        value = 0;
        foreach (char c in text)
        {
            if (c == '.' && !hasPoint && count > 0)
            {
                hasPoint = true;
            }
            else if (char.IsAsciiDigit(c) && count < MostDigits)
            {
                digits = (10 * digits) + (c - '0');
                divisor *= hasPoint ? 10 : 1;
                count++;
            }
            else
            {
                return false;
            }
        }

        value = digits / divisor;
        return count > 0 && text[^1] != '.';
    }
}
