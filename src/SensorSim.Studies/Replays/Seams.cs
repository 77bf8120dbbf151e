// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Replays;

/// <summary>Where a stream can be cut so that what follows counts its samples from 0.</summary>
internal static class Seams
{
    /// <summary>The first tick at or after another one at which every channel has a sample.</summary>
    public static long AtOrAfter(StreamFormat format, long tick)
    {
        long step = 1;
        for (int c = 0; c < format.Channels.Count; c++)
        {
            step = CommonMultiple(step, format.TicksPerSample(c));
        }

        return (tick + step - 1) / step * step;
    }

    private static long CommonMultiple(long a, long b)
    {
        long x = a;
        long y = b;
        while (y != 0)
        {
            (x, y) = (y, x % y);
        }

        return a / x * b;
    }
}
