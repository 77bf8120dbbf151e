// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pressure;

/// <summary>How far it is night, as a smooth periodic function of the clock.</summary>
/// <remarks>
/// 0 from 8 to 21 h, 1 from 0 to 5 h, between them a polynomial of degree five with first and second derivative 0 at both ends. The
/// hours are a choice of this project after the course of ambulatory pressure: evening fall, early minimum, morning rise.
/// </remarks>
public static class DayCurve
{
    private const double FallFromH = 21;
    private const double RiseFromH = 5;
    private const double OverH = 3;

    /// <summary>Share of night, 0 by day to 1.</summary>
    /// <param name="clockH">Clock time [h], any number; whole days are taken off.</param>
    public static double Night(double clockH)
    {
        double hour = clockH - (24 * Math.Floor(clockH / 24));
        if (hour >= FallFromH)
        {
            return Smooth((hour - FallFromH) / OverH);
        }

        return hour <= RiseFromH ? 1 : 1 - Smooth(Math.Min(1, (hour - RiseFromH) / OverH));
    }

    private static double Smooth(double u) => u * u * u * (10 + (u * (-15 + (6 * u))));
}
