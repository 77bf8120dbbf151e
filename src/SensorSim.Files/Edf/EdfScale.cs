// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>Digital and physical limits of a channel that give its scale in fields of eight characters.</summary>
/// <remarks>
/// The limits may lie outside the codes of the converter, so ends are looked for whose physical values are exact: the codes' own ends, one code
/// further (a range of 2^bits codes has round ends), then round numbers of codes; first in the channel's own unit, then with another prefix. Where
/// none are exact the nearest are taken. Exactness is that of decimal numbers, on the shortest text of the unit per code.
/// </remarks>
/// <param name="DigitalMinimum">Lower end of the samples.</param>
/// <param name="DigitalMaximum">Upper end of the samples.</param>
/// <param name="PhysicalMinimum">Physical value of the lower end.</param>
/// <param name="PhysicalMaximum">Physical value of the upper end.</param>
/// <param name="Dimension">Unit with its prefix.</param>
/// <param name="RelativeError">How far the limits lie from where they should, in parts of the range; 0 when exact.</param>
internal sealed record EdfScale(
    int DigitalMinimum, int DigitalMaximum, decimal PhysicalMinimum, decimal PhysicalMaximum, string Dimension, double RelativeError)
{
    /// <summary>Largest relative error of a scale that is written at all.</summary>
    public const double LargestError = 1e-3;

    private const int RoundestPower = 7;

    // What another prefix must gain before the channel's own unit is left.
    private const double WorthAPrefix = 0.5;

    /// <summary>What is taken off a code so that it fits the signed samples of the file.</summary>
    public static int Offset(ChannelFormat channel) => channel.IsSigned ? 0 : 1 << (channel.Bits - 1);

    /// <summary>Looks for the limits.</summary>
    /// <param name="channel">The channel; its bits fit the format.</param>
    /// <param name="isBdf">Whether samples have 24 bits.</param>
    /// <returns>The limits; null when no text of eight characters is near enough.</returns>
    public static EdfScale? Of(ChannelFormat channel, bool isBdf)
    {
        int lowest = isBdf ? -0x800000 : short.MinValue;
        int highest = isBdf ? 0x7FFFFF : short.MaxValue;
        int offset = Offset(channel);
        long zero = (long)channel.ZeroCode - offset;
        int low = channel.MinimumCode - offset;
        int high = channel.MaximumCode - offset;
        string text = channel.UnitPerCode.ToString("R", CultureInfo.InvariantCulture);
        if (!EdfNumber.TryRead(text, out decimal unit) || unit == 0)
        {
            return null;
        }

        bool isDecimal = (double)unit == channel.UnitPerCode;
        EdfScale? nearest = null;
        foreach ((string dimension, decimal perUnit) in EdfDimensions.Written(channel.Name))
        {
            if (Physical(unit, perUnit, 1) is not decimal step || step == 0)
            {
                continue;
            }

            step *= channel.Polarity;
            if (isDecimal
                && Exact(Ends(low, low, -1, zero), step, zero, lowest, highest) is (int bottom, decimal atBottom)
                && Exact(Ends(high, high + 1L, 1, zero), step, zero, lowest, highest) is (int top, decimal atTop))
            {
                return new EdfScale(bottom, top, atBottom, atTop, dimension, 0);
            }

            EdfScale? near = Nearest(low, Math.Min(high + 1, highest), step, zero, dimension);
            nearest = near is not null && (nearest is null || near.RelativeError < WorthAPrefix * nearest.RelativeError) ? near : nearest;
        }

        return nearest?.RelativeError <= LargestError ? nearest : null;
    }

    // The code's own end, one further, then the next round numbers of codes from zero.
    private static IEnumerable<long> Ends(long first, long second, int direction, long zero)
    {
        yield return first;
        yield return second;
        long ten = 10;
        for (int power = 1; power <= RoundestPower; power++, ten *= 10)
        {
            long away = direction * (first - zero);
            long rounds = away >= 0 ? (away + ten - 1) / ten : -(-away / ten);
            yield return zero + (direction * rounds * ten);
        }
    }

    private static (int Code, decimal Value)? Exact(IEnumerable<long> ends, decimal step, long zero, int lowest, int highest)
    {
        foreach (long code in ends)
        {
            if (code >= lowest && code <= highest && Physical(step, 1, code - zero) is decimal value && EdfNumber.Fits(value))
            {
                return ((int)code, value);
            }
        }

        return null;
    }

    private static EdfScale? Nearest(int low, int high, decimal step, long zero, string dimension)
    {
        if (Physical(step, 1, low - zero) is not decimal bottom || Physical(step, 1, high - zero) is not decimal top
            || Math.Max(Math.Abs(bottom), Math.Abs(top)) > 9_999_999)
        {
            return null;
        }

        decimal atBottom = EdfNumber.Nearest(bottom);
        decimal atTop = EdfNumber.Nearest(top);
        double error = (double)(Math.Abs(atBottom - bottom) + Math.Abs(atTop - top)) / Math.Abs((double)(top - bottom));
        return new EdfScale(low, high, atBottom, atTop, dimension, error);
    }

    // Null when it leaves the numbers that a decimal holds exactly enough.
    private static decimal? Physical(decimal step, decimal perUnit, long codes)
    {
        double size = Math.Abs((double)step * (double)perUnit * codes);
        return size < 1e20 ? step * perUnit * codes : null;
    }
}
