// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Ecg;

/// <summary>What the rhythm decides about a beat before its waves are laid.</summary>
/// <param name="RSeconds">Centre of the R wave [s].</param>
/// <param name="LaggedRrSeconds">Lagged RR interval [s], above 0: QT and PR follow it.</param>
/// <param name="Class">Class of the beat: the shape of its QRS and T.</param>
/// <param name="HasP">Whether the beat has its own P wave, whatever its class.</param>
/// <param name="PrSeconds">P onset to QRS onset [s], at most 0.55; NaN: by the knob <c>ecg.pr_ms</c> and its rule.</param>
/// <param name="Depth">Breathing depth at the beat, −1 (out) to 1 (in).</param>
/// <param name="IsAlternate">Parity of the beat, for alternans of T.</param>
/// <param name="LongestQtSeconds">What QT is held at [s]: in a fast run repolarisation ends before the next beat.</param>
internal readonly record struct EcgPlan(
    double RSeconds, double LaggedRrSeconds, BeatClass Class, bool HasP, double PrSeconds, double Depth, bool IsAlternate,
    double LongestQtSeconds = double.PositiveInfinity)
{
    /// <summary>Whether the QRS comes from the ventricle, or down one bundle only: wide, with a T of the other sign.</summary>
    public bool IsWide => IsWideClass(Class);

    /// <summary>Whether beats of a class come from the ventricle, or down one bundle only.</summary>
    /// <param name="kind">The class.</param>
    public static bool IsWideClass(BeatClass kind) => kind is BeatClass.VentricularPremature or BeatClass.VentricularRun
        or BeatClass.VentricularEscape or BeatClass.Wide or BeatClass.Paced;
}
