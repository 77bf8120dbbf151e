// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>The true landmarks of one pulse, in body time [s].</summary>
/// <param name="FootMinimumSeconds">Minimum before the upstroke; the start of the pulse where nothing of earlier ones is left.</param>
/// <param name="FootTangentSeconds">Where the tangent at the steepest point meets the horizontal through that minimum.</param>
/// <param name="FootSecondDerivativeSeconds">
/// Largest second derivative between the start of the pulse and the steepest point; on a steep decay it may come before the minimum.
/// </param>
/// <param name="SteepestSeconds">Steepest point of the upstroke.</param>
/// <param name="SystolicPeakSeconds">First maximum after it.</param>
/// <param name="DicroticNotchSeconds">
/// First minimum after the systolic peak; NaN where there is none, or where the wave rises by less than a thousandth of the pulse height
/// after it. Solved without the next pulse: see <see cref="Before"/>.
/// </param>
/// <param name="DiastolicPeakSeconds">The maximum after the notch, at most 0.65 s × scale after the systolic peak; NaN likewise.</param>
/// <param name="HeightUnits">Systolic peak less foot minimum [pulse units].</param>
/// <param name="HasFoot">
/// Whether the pulse has a foot, a steepest point and a systolic peak, in this order; not so when it rides on the upstroke of an earlier
/// pulse, is too weak to rise against its decay, or begins so close to the notch of the one before that its foot jumps past the wanted
/// place. All times are then NaN, and truth says <c>no_pulse</c>.
/// </param>
public readonly record struct PulseLandmarks(
    double FootMinimumSeconds,
    double FootTangentSeconds,
    double FootSecondDerivativeSeconds,
    double SteepestSeconds,
    double SystolicPeakSeconds,
    double DicroticNotchSeconds,
    double DiastolicPeakSeconds,
    double HeightUnits,
    bool HasFoot)
{
    /// <summary>A pulse without landmarks.</summary>
    public static readonly PulseLandmarks None = new(
        double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, 0, HasFoot: false);

    /// <summary>The landmarks with those taken out that the next pulse hides.</summary>
    /// <remarks>
    /// The next pulse changes the wave from its start on, some 20 to 40 ms before its foot minimum. A systolic peak, notch or diastolic peak at or after
    /// that start would be a landmark of another wave than the one that is drawn.
    /// </remarks>
    /// <param name="next">Components of the next beat that has a pulse.</param>
    public PulseLandmarks Before(in PulseBeat next) => BeforePulseAt(next[0].StartSeconds);

    /// <summary>The same, by where the next pulse starts.</summary>
    /// <param name="endSeconds">Its start [s].</param>
    internal PulseLandmarks BeforePulseAt(double endSeconds) => this with
    {
        SystolicPeakSeconds = SystolicPeakSeconds < endSeconds ? SystolicPeakSeconds : double.NaN,
        DicroticNotchSeconds = DicroticNotchSeconds < endSeconds ? DicroticNotchSeconds : double.NaN,
        DiastolicPeakSeconds = DiastolicPeakSeconds < endSeconds ? DiastolicPeakSeconds : double.NaN,
    };
}
