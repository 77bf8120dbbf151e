// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Time;

/// <summary>What the clock of a device shows: device time = offset + (1 + ppm / 10⁶) × body time.</summary>
/// <param name="OffsetSeconds">What it shows at body time 0 [s].</param>
/// <param name="Ppm">How much too fast it runs [parts per million].</param>
public readonly record struct DeviceClock(double OffsetSeconds, double Ppm)
{
    /// <summary>Device seconds per body second.</summary>
    public double Speed => 1 + (Ppm * 1e-6);

    /// <summary>Body time at which the clock shows a device time [s].</summary>
    /// <param name="deviceSeconds">Device time [s].</param>
    public double BodySeconds(double deviceSeconds) => (deviceSeconds - OffsetSeconds) / Speed;

    /// <summary>What the clock shows at a body time [s].</summary>
    /// <param name="bodySeconds">Body time [s].</param>
    public double DeviceSeconds(double bodySeconds) => OffsetSeconds + (Speed * bodySeconds);
}
