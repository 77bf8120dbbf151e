// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>How long QT may be in a steady rhythm.</summary>
public static class QtLimits
{
    /// <summary>Largest share of the RR interval that QT may take in a steady rhythm: the T wave needs room before the next QRS.</summary>
    public const double LargestShare = 0.9;

    /// <summary>QT of a steady rhythm [s].</summary>
    /// <param name="values">Values of the scenario; its rule.</param>
    /// <param name="qtcMs">QT at 60 bpm [ms].</param>
    /// <param name="rrSeconds">RR interval [s].</param>
    public static double SteadyQtSeconds(KeyValues values, double qtcMs, double rrSeconds)
    {
        ArgumentNullException.ThrowIfNull(values);
        return new QtRule(values[EcgKeys.QtRule]).QtSeconds(qtcMs * 1e-3, rrSeconds, PortableMath.Log(rrSeconds));
    }

    /// <summary>Largest QT at 60 bpm that fits a steady RR interval, in whole ms and within the knob's range; below it: none fits.</summary>
    /// <param name="values">Values of the scenario; its rule.</param>
    /// <param name="rrSeconds">RR interval [s].</param>
    public static double LargestQtcMs(KeyValues values, double rrSeconds)
    {
        double qtc = EcgKeys.QtcMs.Maximum;
        while (qtc >= EcgKeys.QtcMs.Minimum && SteadyQtSeconds(values, qtc, rrSeconds) > LargestShare * rrSeconds)
        {
            qtc -= 1;
        }

        return qtc;
    }

    /// <summary>Largest steady rate that a QT at 60 bpm fits, in whole bpm.</summary>
    /// <param name="values">Values of the scenario; its rule.</param>
    /// <param name="qtcMs">QT at 60 bpm [ms].</param>
    public static double LargestRateBpm(KeyValues values, double qtcMs)
    {
        double rate = 300;
        while (rate > 20 && SteadyQtSeconds(values, qtcMs, 60 / rate) > LargestShare * 60 / rate)
        {
            rate -= 1;
        }

        return rate;
    }
}
