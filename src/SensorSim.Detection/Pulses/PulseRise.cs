// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Side stage, once per pulse: how long pulses take to rise, which decides on the length of the fit and on what is no pulse.</summary>
/// <remarks>
/// Input: heights of working samples, slopes of the cubic fit.
/// Product: height of 17 bits × 2^12.
/// Accumulator: 32 bits.
/// Worst case: rises of 255 working samples and more count as 255.
/// Output: 1/16 working sample, 12 bits.
/// </remarks>
public struct PulseRise
{
    private const int Most = 16 * (Word256.Length - 1);

    /// <summary>A slow mean of the rise times [1/16 working sample]; 0 while there is none.</summary>
    public int Usual16 { get; private set; }

    /// <summary>Rise time: the pulse's height over its steepest slope [1/16 working sample].</summary>
    /// <param name="height">From minimum to peak.</param>
    /// <param name="slope">Steepest slope by the fit: slope × 2^14 after the shift.</param>
    /// <param name="scaleShift">By how much the fit makes its differences smaller [bits].</param>
    public static int Of(int height, int slope, int scaleShift)
    {
        // height × 2^14 × 16 / slope.
        int up = Shift.Round(height, scaleShift);
        int run = Shift.Round(slope, 6);
        return run <= 0 || up < 0 || up >= 1 << 17 ? Most : Sat.Narrow((up << 12) / run, Most);
    }

    /// <summary>Breathing may rise as high as a weak pulse, and takes longer; what is suddenly large must take as long as pulses do.</summary>
    /// <param name="rise16">Its rise time [1/16 working sample].</param>
    /// <param name="isTooSteep">Whether it is suddenly large.</param>
    /// <param name="isPressing">Whether large ones have come for so long that any is believed.</param>
    public readonly bool IsOfPulse(int rise16, bool isTooSteep, bool isPressing)
    {
        if (Usual16 == 0 || (isTooSteep && isPressing))
        {
            return true;
        }

        return isTooSteep ? rise16 < 2 * Usual16 && rise16 > Shift.Floor(Usual16, 1) : rise16 <= 3 * Usual16;
    }

    /// <summary>Takes the rise time of a pulse.</summary>
    /// <param name="rise16">The rise time [1/16 working sample].</param>
    public void Add(int rise16) => Usual16 = Usual16 == 0 ? rise16 : Usual16 + Shift.Round(rise16 - Usual16, 2);
}
