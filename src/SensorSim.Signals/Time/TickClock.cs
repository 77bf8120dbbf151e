// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Time;

/// <summary>The one integer time base of a stream.</summary>
/// <remarks>
/// A tick is 1 / <see cref="TicksPerSecond"/> of a second; the rate is the lowest common multiple of the nominal sampling
/// rates, so that every nominal sampling instant falls on a tick. <c>default</c> is not a usable clock.
/// </remarks>
public readonly record struct TickClock
{
    /// <summary>Nanoseconds in a second.</summary>
    public const long NanosecondsPerSecond = 1_000_000_000;

    /// <summary>Creates a clock with a given number of ticks in a second.</summary>
    /// <param name="ticksPerSecond">Ticks in a second, 1 to 1,000,000,000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is outside that range.</exception>
    public TickClock(long ticksPerSecond)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(ticksPerSecond, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(ticksPerSecond, NanosecondsPerSecond);
        TicksPerSecond = ticksPerSecond;
    }

    /// <summary>Ticks in a second [Hz].</summary>
    public long TicksPerSecond { get; }

    /// <summary>The clock on which every one of the given rates falls on whole ticks.</summary>
    /// <param name="ratesHz">Nominal sampling rates [Hz], each at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A rate is below 1 Hz, or the common multiple is above 1 GHz.</exception>
    public static TickClock FromRates(ReadOnlySpan<int> ratesHz)
    {
        long ticks = 1;
        foreach (int rate in ratesHz)
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(rate, 1, nameof(ratesHz));
            ticks = ticks / GreatestCommonDivisor(ticks, rate) * rate;

            // Checked at every step, so that the product never leaves the range of a long.
            ArgumentOutOfRangeException.ThrowIfGreaterThan(ticks, NanosecondsPerSecond, nameof(ratesHz));
        }

        return new TickClock(ticks);
    }

    /// <summary>Seconds from the start of the stream to a tick [s], rounded to the nearest double.</summary>
    /// <param name="tick">Tick number.</param>
    public double Seconds(long tick) => (double)tick / TicksPerSecond;

    /// <summary>Nanoseconds from the start of the stream to a tick [ns], rounded down.</summary>
    /// <param name="tick">Tick number; its magnitude must stay below 9e9 seconds.</param>
    public long Nanoseconds(long tick)
    {
        long seconds = Math.DivRem(tick, TicksPerSecond, out long rest);
        if (rest < 0)
        {
            seconds--;
            rest += TicksPerSecond;
        }

        return checked(seconds * NanosecondsPerSecond) + rest * NanosecondsPerSecond / TicksPerSecond;
    }

    /// <summary>The first tick at or after a time.</summary>
    /// <param name="seconds">Time from the start of the stream [s], at least 0.</param>
    /// <remarks>Exact with respect to <see cref="Seconds"/>: the product alone may round to one tick too many.</remarks>
    public long TickAtOrAfter(double seconds)
    {
        long tick = (long)Math.Ceiling(seconds * TicksPerSecond);
        while (Seconds(tick - 1) >= seconds)
        {
            tick--;
        }

        while (Seconds(tick) < seconds)
        {
            tick++;
        }

        return tick;
    }

    /// <summary>The first tick at or after a time, exactly; undoes <see cref="Nanoseconds"/>, which rounds down.</summary>
    /// <param name="nanoseconds">Time from the start of the stream [ns], at least 0.</param>
    public long TickAtOrAfterNs(long nanoseconds)
    {
        long seconds = Math.DivRem(nanoseconds, NanosecondsPerSecond, out long rest);
        return checked(seconds * TicksPerSecond) + (((rest * TicksPerSecond) + NanosecondsPerSecond - 1) / NanosecondsPerSecond);
    }

    private static long GreatestCommonDivisor(long a, long b)
    {
        while (b != 0)
        {
            (a, b) = (b, a % b);
        }

        return a;
    }
}
