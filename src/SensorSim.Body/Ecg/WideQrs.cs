// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Ecg;

/// <summary>Shape of a QRS that spreads through the ventricle itself: one broad main deflection with a slurred begin and end.</summary>
/// <remarks>
/// <para>Places in parts of the QRS duration from its onset: R, the main deflection, at 0.45 with a width (standard deviation) of 0.13; Q's
/// place at 0.2238 with 0.08, so that it begins with the QRS; S's place at 0.7203 with 0.10, so that it ends with it.</para>
/// <para>Heights in parts of the main deflection. Ventricular beats: broad upright R, its end notched. Ventricular escape: the other way
/// up and 0.7 of it, from another focus. Bundle-branch block (class wide): R and R′, from the conducted beat's R. Paced: a deep slurred QS, as
/// leads II, III and aVF see a beat that starts at the apex of the right ventricle. T has the other sign (textbooks, from memory); all
/// figures are a choice of this project.</para>
/// </remarks>
internal static class WideQrs
{
    /// <summary>R's place.</summary>
    public const double RPlace = 0.45;

    private const double RSigma = 0.13;
    private const double QSigma = 0.08;
    private const double SSigma = 0.10;

    // T of the other sign, in parts of the main deflection.
    private const double TShare = -0.3;

    /// <summary>Lays Q, R and S.</summary>
    /// <param name="beat">Receives the waves.</param>
    /// <param name="kind">Class of the beat.</param>
    /// <param name="rSeconds">Centre of R [s].</param>
    /// <param name="qrsSeconds">QRS duration [s].</param>
    /// <param name="main">Height of the main deflection [mV]; negative points down.</param>
    /// <returns>Height of T [mV].</returns>
    public static double Lay(ref EcgBeat beat, BeatClass kind, double rSeconds, double qrsSeconds, double main)
    {
        double onset = rSeconds - (RPlace * qrsSeconds);
        (double q, double r, double s) = kind == BeatClass.Wide ? (0.1, 0.85, 0.6) : (0.2, 1.0, 0.35);
        beat[EcgBeat.Q] = new EcgWave(onset + (EcgWave.EdgeSigmas * QSigma * qrsSeconds), QSigma * qrsSeconds, q * main);
        beat[EcgBeat.R] = new EcgWave(rSeconds, RSigma * qrsSeconds, r * main);
        beat[EcgBeat.S] = new EcgWave(onset + ((1 - (EcgWave.EdgeSigmas * SSigma)) * qrsSeconds), SSigma * qrsSeconds, s * main);
        return TShare * main;
    }
}
