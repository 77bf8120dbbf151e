// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>Plans of single beats, and the sum of a beat's Gaussians by System.Math.</summary>
internal static class Plans
{
    public static EcgPlan Normal(double rSeconds, double rrSeconds, double depth = 0, bool isAlternate = false) =>
        new(rSeconds, rrSeconds, BeatClass.Normal, HasP: true, double.NaN, depth, isAlternate);

    public static EcgPlan Of(BeatClass kind, double rSeconds, double rrSeconds, bool hasP = false) =>
        new(rSeconds, rrSeconds, kind, hasP, double.NaN, 0, IsAlternate: false);

    /// <summary>Voltage of a beat by itself [mV], nothing cut.</summary>
    public static double Voltage(in EcgBeat beat, double seconds)
    {
        double sum = 0;
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            if (beat[i].Millivolts != 0)
            {
                double x = (seconds - beat[i].CentreSeconds) / beat[i].SigmaSeconds;
                sum += beat[i].Millivolts * Math.Exp(-x * x / 2);
            }
        }

        return sum;
    }
}
