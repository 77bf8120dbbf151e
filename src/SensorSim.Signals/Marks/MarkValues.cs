// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Marks;

/// <summary>Values of marks that firmware gives in codes of a channel, in thousandths of the channel's unit.</summary>
public static class MarkValues
{
    /// <summary>What one code is worth [1/1000 of the channel's unit], with the channel's polarity.</summary>
    /// <param name="channel">The channel.</param>
    public static double MilliPerCode(ChannelFormat channel)
    {
        ArgumentNullException.ThrowIfNull(channel);
        return channel.UnitPerCode * channel.Polarity * 1000;
    }

    /// <summary>A difference of codes in thousandths of the unit, rounded to the nearest, a half to even, and clipped to the field of a mark.</summary>
    /// <param name="codes">The difference [codes].</param>
    /// <param name="milliPerCode">What one code is worth, of <see cref="MilliPerCode"/>.</param>
    public static int Milli(int codes, double milliPerCode)
        => (int)Math.Max(int.MinValue, Math.Min(int.MaxValue, Math.Round(codes * milliPerCode)));
}
