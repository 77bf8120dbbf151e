// SPDX-License-Identifier: MIT
using SensorSim.Signals.Time;

namespace SensorSim.Sensing.Delivery;

/// <summary>Sample indices of a channel and whole nanoseconds of its nominal device time.</summary>
internal static class NominalTime
{
    /// <summary>Device time of a sample [ns], rounded down.</summary>
    public static long Ns(long sample, int rateHz)
    {
        long seconds = Math.DivRem(sample, rateHz, out long rest);
        return (seconds * TickClock.NanosecondsPerSecond) + (rest * TickClock.NanosecondsPerSecond / rateHz);
    }

    /// <summary>Index of the first sample at or after a device time [ns], at least 0.</summary>
    public static long FirstSample(long ns, int rateHz)
    {
        long seconds = Math.DivRem(ns, TickClock.NanosecondsPerSecond, out long rest);
        return (seconds * rateHz) + (((rest * rateHz) + TickClock.NanosecondsPerSecond - 1) / TickClock.NanosecondsPerSecond);
    }
}
