// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring;

/// <summary>A channel of a record and what lies between body time and its nominal device time.</summary>
/// <remarks>Device time = declared delay + clock offset + (1 + ppm / 10⁶) × body time.</remarks>
/// <param name="Channel">Channel.</param>
/// <param name="DeclaredDelayNs">Delay that the chain declares [ns].</param>
/// <param name="ClockOffsetNs">What the device's clock shows at body time 0, less what is declared [ns].</param>
/// <param name="ClockPpm">How much too fast the device's clock runs [parts per million]; magnitude at most 100,000.</param>
public readonly record struct ChannelDelay(ChannelName Channel, long DeclaredDelayNs = 0, long ClockOffsetNs = 0, double ClockPpm = 0)
{
    /// <summary>Body time that belongs to a nominal device time [ns]; exact when the clock runs right, else rounded.</summary>
    /// <param name="deviceNs">Nominal device time [ns].</param>
    public long BodyNs(long deviceNs)
    {
        // x / (1 + p) = x − x · p / (1 + p): only the small part is rounded.
        long sinceZero = deviceNs - DeclaredDelayNs - ClockOffsetNs;
        double fast = ClockPpm * 1e-6;
        return ClockPpm == 0 ? sinceZero : sinceZero - (long)Math.Round(sinceZero * (fast / (1 + fast)));
    }

    /// <summary>Nominal device time that belongs to a body time [ns]; exact when the clock runs right, else rounded.</summary>
    /// <param name="bodyNs">Body time [ns].</param>
    public long DeviceNs(long bodyNs) =>
        bodyNs + (ClockPpm == 0 ? 0 : (long)Math.Round(bodyNs * (ClockPpm * 1e-6))) + DeclaredDelayNs + ClockOffsetNs;
}
