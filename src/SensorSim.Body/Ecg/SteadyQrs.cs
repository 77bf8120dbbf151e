// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Ecg;

/// <summary>Size of the QRS complex of a steady normal beat, in closed form: what levels of ECG noise are measured against.</summary>
/// <remarks>
/// The sum of the waves Q, R and S alone, as they stand before the first change of their knobs, without breathing. The rhythm has no part in
/// it: also in asystole the figure is that of the normal beat which the knobs describe.
/// </remarks>
public static class SteadyQrs
{
    // Q, R and S lie within eight of their own widths; at a twentieth of a width no hump is missed.
    private const double Reach = 8;
    private const int StepsPerSigma = 20;

    /// <summary>Highest less lowest voltage of the complex [mV], at least 0.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static double PeakToPeakMv(KeyValues values)
    {
        EcgBeat beat = new EcgShape(values).Lay(new EcgPlan(0, 1, BeatClass.Normal, HasP: true, double.NaN, Depth: 0, IsAlternate: false));
        double sigma = beat[EcgBeat.R].SigmaSeconds;
        double step = sigma / StepsPerSigma;
        double highest = 0;
        double lowest = 0;
        for (int i = (int)(-Reach * StepsPerSigma); i <= (int)(Reach * StepsPerSigma); i++)
        {
            double at = i * step;
            double value = At(beat, at, out double slope, out double curvature);

            // Newton's step towards the extremum next to a point; a parabola's height there is off by the fourth power of a twentieth.
            if (curvature != 0 && Math.Abs(slope) <= Math.Abs(curvature) * step)
            {
                at -= slope / curvature;
                value = At(beat, at, out _, out _);
            }

            highest = Math.Max(highest, value);
            lowest = Math.Min(lowest, value);
        }

        return highest - lowest;
    }

    private static double At(in EcgBeat beat, double seconds, out double slope, out double curvature)
    {
        double value = 0;
        slope = 0;
        curvature = 0;
        beat[EcgBeat.Q].Accumulate(seconds, ref value, ref slope, ref curvature);
        beat[EcgBeat.R].Accumulate(seconds, ref value, ref slope, ref curvature);
        beat[EcgBeat.S].Accumulate(seconds, ref value, ref slope, ref curvature);
        return value;
    }
}
